/** A stamp tells boards apart that a fit could tell apart, and no others. */
import type { Board, Lane } from "@halflap/board/board";
import { usualWishes } from "@halflap/board/wishes";
import { expect, test } from "vitest";
import { boardStamp, sameStamp } from "./board-stamp.ts";
import { demoBoard } from "./test-support/answers.ts";

const board = demoBoard();
const isSame = (other: Board) => sameStamp(boardStamp(board), boardStamp(other));
const withUpper = (change: Partial<Lane>): Board => ({
  ...board,
  lanes: { ...board.lanes, upper: { ...board.lanes.upper, ...change } },
});

test("the same board has the same stamp", () => {
  expect(isSame({ ...board })).toBe(true);
});

test("grips, wishes, chords, form and settings make another", () => {
  const [section, ...others] = board.sections;
  if (section === undefined) throw new Error("the demo has sections");
  const shorter = { ...section, bars: section.bars.slice(1) };
  expect(isSame(withUpper({ grips: new Map() }))).toBe(false);
  expect(isSame(withUpper({ wishes: { ...usualWishes, keepTop: true } }))).toBe(false);
  expect(isSame({ ...board, sections: [shorter, ...others] })).toBe(false);
  expect(isSame({ ...board, form: board.form.slice(1) })).toBe(false);
  expect(isSame({ ...board, tempo: board.tempo + 1 })).toBe(false);
});

test("offers, names and marks do not", () => {
  expect(isSame({ ...board, title: "Another", proposals: [], members: [] })).toBe(true);
  expect(isSame(withUpper({ marks: new Map(), owner: undefined }))).toBe(true);
});
