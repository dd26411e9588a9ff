/** Neighbours are the nearest grips that sound, over bars and sections. */
import type { BarId, Lane } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { expect, test } from "vitest";
import { neighboursOf, sameNeighbours } from "./neighbours.ts";

const documents = emptyDocuments();
fillDocuments(documents, demoSolution());
const board = makeReader(documents)();
const slots = board.sections.flatMap((section) => section.bars.flatMap((bar) => bar.slots));
const lane = board.lanes.lower;
const at = (index: number) => {
  const slot = slots[index];
  if (!slot) throw new Error(`no slot ${index}`);
  return slot;
};

test("the neighbours lie one slot away where the lane plays through", () => {
  const { before, after } = neighboursOf(board.sections, lane, at(5).id);
  expect([before?.slot.id, after?.slot.id]).toEqual([at(4).id, at(6).id]);
});

test("nothing comes before the first slot", () => {
  expect(neighboursOf(board.sections, lane, at(0).id).before).toBeUndefined();
});

test("a bar in which the lane lays out is passed over", () => {
  const rest = board.sections[0]?.bars[1]?.id ?? ("" as BarId);
  const resting: Lane = { ...lane, layOuts: new Set([rest]) };
  expect(neighboursOf(board.sections, resting, at(0).id).after?.slot.id).toBe(at(2).id);
});

test("an edit of the slot itself leaves its neighbours the same", () => {
  const here = at(5).id;
  const grips = new Map([...lane.grips].filter(([slot]) => slot !== here));
  const without = neighboursOf(board.sections, { ...lane, grips }, here);
  expect(sameNeighbours(neighboursOf(board.sections, lane, here), without)).toBe(true);
  const next = at(6).id;
  const other = new Map([...lane.grips].filter(([slot]) => slot !== next));
  const changed = neighboursOf(board.sections, { ...lane, grips: other }, here);
  expect(sameNeighbours(without, changed)).toBe(false);
});
