/** What is silenced speaks again, whatever else the same silences cover. */
import { beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board } from "../board.ts";
import { fillDocuments } from "../copy.ts";
import { demoDraft } from "../demo.ts";
import { type BoardDocuments, emptyDocuments } from "../documents.ts";
import { barId, silenceId } from "../ids.ts";
import { chartLayout } from "../layout.ts";
import { makeOwnUndo } from "../own-undo.ts";
import { makeReader } from "../read.ts";
import { silence, unsilence } from "./silences.ts";

let docs: BoardDocuments;
let read: () => Board;

beforeEach(() => {
  docs = emptyDocuments();
  fillDocuments(docs, demoDraft());
  read = makeReader(docs);
});

const bars = (...numbers: readonly number[]) => numbers.map((one) => barId(`intro-${one}`));
const agree = (id: string, rule: string, ...numbers: readonly number[]) =>
  silence(docs.board, {
    ...{ id: silenceId(id), rule, bars: bars(...numbers) },
    reason: "we like it",
  });
const speak = (doc: Y.Doc, ...numbers: readonly number[]) =>
  unsilence(doc, { rule: "R01", bars: bars(...numbers) });
const silenced = () => read().silences.map(({ id, rule, bars }) => [id, rule, bars.join(" ")]);

test("a finding is silenced with a reason, and speaks again", () => {
  const made = { rule: "R03", bars: [barId("solo~verse-1")] };
  silence(docs.board, { id: silenceId("s"), ...made, reason: "we like it" });
  expect(read().silences).toEqual([{ id: "s", ...made, reason: "we like it" }]);
  unsilence(docs.board, made);
  expect(read().silences).toEqual([]);
});

test("E8 what became of a finding speaks again, and the other bars stay silenced", () => {
  agree("s", "R01", 1, 2, 3, 4);
  speak(docs.board, 2, 3);
  expect(silenced()).toEqual([["s", "R01", "intro-1 intro-4"]]);
  expect(read().silences[0]?.reason).toBe("we like it");
});

test("E8 several silences of the rule are left, and no other rule's", () => {
  agree("a", "R01", 1, 2);
  agree("b", "R01", 2, 3);
  agree("c", "R02", 1, 2, 3);
  agree("d", "R01", 4);
  speak(docs.board, 1, 2, 3);
  expect(silenced()).toEqual([
    ["c", "R02", "intro-1 intro-2 intro-3"],
    ["d", "R01", "intro-4"],
  ]);
});

test("E8 is one step to take back, and none where nothing was silenced", () => {
  agree("a", "R01", 1, 2);
  agree("b", "R01", 2, 3);
  const before = silenced();
  const undo = makeOwnUndo();
  undo.follow(docs.board);
  speak(docs.board, 4);
  expect(undo.counts().done).toBe(0);
  speak(docs.board, 1, 2);
  expect(silenced()).toEqual([["b", "R01", "intro-3"]]);
  undo.undo();
  expect(silenced()).toEqual(before);
  expect(undo.counts()).toEqual({ done: 0, undone: 1 });
});

test("E8 two people at once agree in the end, and what stayed silenced can still speak", () => {
  agree("s", "R01", 1, 2, 3, 4);
  const theirs = new Y.Doc();
  Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
  speak(docs.board, 1, 2);
  speak(theirs, 3, 4);
  Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(theirs), "network");
  Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board), "network");
  const stored = (doc: Y.Doc) => chartLayout(doc).silences.toJSON();
  expect(stored(theirs)).toEqual(stored(docs.board));
  expect(["intro-1 intro-2", "intro-3 intro-4"]).toContain(silenced()[0]?.[2]);
  speak(docs.board, 1, 2, 3, 4);
  expect(silenced()).toEqual([]);
});

test("E8 a silence keeps what a newer page stored with it", () => {
  const { silences } = chartLayout(docs.board);
  const stored = { rule: "R01", bars: bars(1, 2), reason: "we like it", until: "spring" };
  silences.set("s", stored);
  speak(docs.board, 1);
  expect(silences.get("s")).toEqual({ ...stored, bars: bars(2) });
});
