/** A silenced finding is brought back, whatever shape it has taken since. */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { clearGrip } from "@halflap/board/edits/lane";
import { slotId } from "@halflap/board/ids";
import { makeOwnUndo } from "@halflap/board/own-undo";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import { assert } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { makeChartIntents } from "./chart-intents.ts";

function open() {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const board = makeReader(documents);
  const intents = makeChartIntents(
    () => documents.board,
    board,
    () => true,
  );
  const overlaps = () => check(board()).filter(({ rule }) => rule === "R01");
  const first = () => {
    const [finding] = overlaps();
    assert(finding !== undefined, "the parts of the draft overlap from the start");
    return finding;
  };
  return { documents, board, intents, overlaps, first };
}

test("a finding that has shrunk since it was silenced comes back in one step", () => {
  const { documents, board, intents, overlaps, first } = open();
  intents.silence("R01", first().bars, "the hook needs it");
  const others = overlaps().slice(1);
  clearGrip(documents["lane-upper"], slotId("intro-1-1"));
  expect(first()).toMatchObject({
    bars: ["intro-2", "intro-3", "intro-4"],
    silenced: "the hook needs it",
  });
  const before = board().silences;
  const undo = makeOwnUndo();
  undo.follow(documents.board);
  intents.unsilence("R01", first().bars);
  expect(first().silenced).toBeUndefined();
  expect(overlaps().slice(1)).toEqual(others);
  undo.undo();
  expect(board().silences).toEqual(before);
  expect(undo.counts().done).toBe(0);
});

test("two silences that cover a finding together let it speak, others of theirs do not", () => {
  const { intents, overlaps, first } = open();
  const [, second] = overlaps();
  assert(second !== undefined, "the verse overlaps too");
  const { bars } = first();
  intents.silence("R01", bars.slice(0, 2), "so be it");
  intents.silence("R01", [...bars.slice(2), ...second.bars], "so be it");
  expect([first().silenced, overlaps()[1]?.silenced]).toEqual(["so be it", "so be it"]);
  intents.unsilence("R01", bars);
  expect([first().silenced, overlaps()[1]?.silenced]).toEqual([undefined, "so be it"]);
});
