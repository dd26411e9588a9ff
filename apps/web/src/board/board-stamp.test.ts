/** A stamp tells boards apart that sound or check differently, and no others. */
import type { Board, Lane } from "@halflap/board/board";
import { gapOwnerId } from "@halflap/board/ids";
import { usualWishes } from "@halflap/board/wishes";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { demoBoard } from "../fit/test-support/answers.ts";
import { boardStamp, sameStamp } from "./board-stamp.ts";

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

test("how the tune begins and ends, and whose a gap is, make another", () => {
  const [bar] = board.sections.flatMap(({ bars }) => bars);
  if (bar === undefined) throw new Error("the demo has bars");
  const gap = { bar: bar.id, at: ticks(0), owner: "upper" } as const;
  const owned = { ...board, gapOwners: [{ id: gapOwnerId("gap"), ...gap }] };
  const given = {
    ...owned,
    gapOwners: [{ id: gapOwnerId("gap"), ...gap, owner: "both" }],
  } as const;
  expect(isSame({ ...board, ending: `${board.ending}, softly` })).toBe(false);
  expect(isSame({ ...board, countIn: board.countIn + 1 })).toBe(false);
  expect(isSame(owned)).toBe(false);
  expect(sameStamp(boardStamp(owned), boardStamp(given))).toBe(false);
});

test("offers, names and marks do not", () => {
  expect(isSame({ ...board, title: "Another", proposals: [], members: [] })).toBe(true);
  expect(isSame(withUpper({ marks: new Map(), owner: undefined }))).toBe(true);
});
