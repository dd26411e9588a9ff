/** A board that is fed says what the documents say, and keeps what did not change. */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { clearGrip } from "@halflap/board/edits/lane";
import { makeReader } from "@halflap/board/read";
import { expect, test } from "vitest";
import { feedFrom, makeFedBoard } from "./board-feed.ts";

function fed() {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const copy = makeFedBoard();
  const end = feedFrom(documents, (message) => copy.take(structuredClone(message)));
  return { documents, copy, end };
}

test("it says the same at first, and after every edit", () => {
  const { documents, copy } = fed();
  expect(copy.read()).toEqual(makeReader(documents)());
  const [slot] = copy.read().lanes.upper.grips.keys();
  if (slot === undefined) throw new Error("the draft has grips");
  const { sections } = copy.read();
  clearGrip(documents["lane-upper"], slot);
  expect(copy.read()).toEqual(makeReader(documents)());
  expect(copy.read().lanes.upper.grips.has(slot)).toBe(false);
  expect(copy.read().sections).toBe(sections);
});

test("other documents take the place of the first, and an ended feed is silent", () => {
  const { documents, copy, end } = fed();
  end();
  const others = emptyDocuments();
  fillDocuments(others, demoSolution());
  feedFrom(others, copy.take);
  const before = copy.read();
  const [slot] = makeReader(documents)().lanes.upper.grips.keys();
  if (slot !== undefined) clearGrip(documents["lane-upper"], slot);
  expect(copy.read()).toBe(before);
  expect(before).toEqual(makeReader(others)());
});
