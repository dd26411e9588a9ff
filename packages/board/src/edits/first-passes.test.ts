/** What a lane said of sections in turn counts on when the other player writes the first form. */
import { ticks } from "@halflap/theory/units";
import { beforeEach, expect, test } from "vitest";
import type { Board } from "../board.ts";
import { copyOf, decodeCopy, fillDocuments } from "../copy.ts";
import { demoSolution } from "../demo.ts";
import { type BoardDocuments, emptyDocuments } from "../documents.ts";
import { editedBoard } from "../edited-board.ts";
import { derivedEntry, formEntryId, sectionId, strumId } from "../ids.ts";
import type { LaneEdit } from "../proposal.ts";
import { makeReader } from "../read.ts";
import { parseStrumText } from "../strum-text.ts";
import { type Played, setForm } from "./form-change.ts";
import { applyLaneEdits } from "./lane-edits.ts";

const [verse, tag] = [sectionId("verse"), sectionId("tag")];
const first = formEntryId("verse-1");
const [slow, fast] = [strumId("slow"), strumId("fast")];
const steps = parseStrumText("D.D.");
if (!steps.ok) throw new Error("a pattern");
const pattern = (id: typeof slow): LaneEdit => ({
  kind: "strum",
  strum: { id, name: id, step: ticks(24), feel: "board", palmMute: false, steps: steps.value },
});
const rest = (entry: typeof first, on = true): LaneEdit => ({
  ...{ kind: "rest-pass", entry, rest: on },
});
const strum = (entry: typeof first, id: typeof slow | undefined): LaneEdit => ({
  ...{ kind: "strum-at", place: { kind: "pass", entry }, strum: id },
});

let docs: BoardDocuments;
let read: () => Board;

beforeEach(() => {
  docs = emptyDocuments();
  fillDocuments(docs, { ...demoSolution(), form: [], singers: {} });
  read = makeReader(docs);
  play(pattern(slow), pattern(fast), rest(derivedEntry(verse)), strum(derivedEntry(verse), slow));
});

const play = (...edits: readonly LaneEdit[]) => applyLaneEdits(docs["lane-upper"], edits);
const write = (form: readonly Played[]) =>
  setForm(docs.board, { form, makeId: () => `n${read().form.length}` });
const said = (board = read()) => {
  const { restingPasses, strumming } = board.lanes.upper;
  return { rests: [...restingPasses], strums: [...strumming.passes] };
};
const form = [tag, verse, verse].map((section) => ({ section, times: 1 }));
const inFirst = { rests: [first], strums: [[first, slow]] };

test("B30 what was said of a section counts for the entry that plays it first", () => {
  write(form);
  expect(said()).toEqual(inFirst);
  expect(makeReader(docs)()).toEqual(read());
});

test("B30 it goes with that entry, and is there again without a form", () => {
  write(form);
  const [one, two, three] = read().form;
  if (!one || !two || !three) throw new Error("three entries");
  write([three, one, two]);
  expect(said()).toEqual(inFirst);
  write([]);
  expect(said()).toEqual({
    rests: [derivedEntry(verse)],
    strums: [[derivedEntry(verse), slow]],
  });
});

test("B30 what is said of the entry itself counts instead, and is taken back for good", () => {
  write(form);
  play(strum(first, fast), rest(first, false));
  expect(said()).toEqual({ rests: [], strums: [[first, fast]] });
  play(strum(first, undefined));
  expect(said()).toEqual({ rests: [], strums: [] });
});

test("B30 a change that was offered while there was no form counts for the entry", () => {
  write(form);
  const edits = [strum(derivedEntry(verse), fast), rest(derivedEntry(verse), false)];
  const tried = editedBoard(read(), "upper", edits);
  play(...edits);
  expect(said()).toEqual({ rests: [], strums: [[first, fast]] });
  expect(tried).toEqual(read());
});

test("B30 the copy has it under the entry", () => {
  write(form);
  const copy = copyOf(docs);
  expect(copy.lanes.upper.restingPasses).toEqual([first]);
  expect(decodeCopy(copy).ok).toBe(true);
  const again = emptyDocuments();
  fillDocuments(again, copy);
  expect(said(makeReader(again)())).toEqual(inFirst);
});
