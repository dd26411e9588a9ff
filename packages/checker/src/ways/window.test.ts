/** The part of a board on which candidates are tried first. */
import { barId } from "@halflap/board/ids";
import { expect, test } from "vitest";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";
import { foundBy, waysOf } from "../test-support/ways.ts";
import { editsWithin, isCut, windowOf } from "./window.ts";

const apart: Played = ["F7", "x-x-x-x-8-8", "x-x-3-2-4-x"];
const same: Played = ["F7", "x-x-3-2-4-x", "x-x-3-2-4-x"];

test("holds the finding's bars, two to each side, and the ends of sections beside it", () => {
  const section = [[apart], [apart], [apart], [apart]];
  const board = smallBoard({
    sections: [section, [[same], [apart], [apart], [apart], [apart]], section],
    form: [0, 1, 2],
  });
  const window = windowOf(board, foundBy(board, "R03"));
  const numbers = window.sections.map(({ bars }) => bars.map(({ number }) => number));
  expect(numbers).toEqual([
    [3, 4],
    [5, 6, 7],
  ]);
  expect([...window.lanes.upper.grips.keys()]).toEqual(["s3", "s4", "s5", "s6", "s7"]);
});

test("O1 R33 has a way out however long ago the loudness was written", () => {
  const board = smallBoard({
    sections: bars(...Array.from({ length: 24 }, () => apart)),
    dynamics: { upper: { 1: "f" }, lower: { 1: "f", 22: "pp", 23: "f" } },
  });
  const { lanes } = windowOf(board, foundBy(board, "R33"));
  expect([...lanes.upper.dynamics]).toEqual([[barId("b6"), "f"]]);
  expect(waysOf(board, "R33").map(({ words }) => words)).toContain("Play mf in bar 22");
});

test("a loudness written in bars left out between two parts is in force in the second", () => {
  const board = smallBoard({
    sections: bars(...Array.from({ length: 12 }, () => same)),
    dynamics: { upper: { 1: "p", 6: "f" } },
  });
  const ends = ["b1", "b12"].map(barId);
  const { lanes } = windowOf(board, { ...foundBy(board, "R03"), bars: ends });
  expect([...lanes.upper.dynamics]).toEqual([
    [barId("b1"), "p"],
    [barId("b10"), "f"],
  ]);
});

test("stays small beside a finding of hundreds of bars, and so does what is tried there", () => {
  const board = smallBoard({ sections: [Array.from({ length: 300 }, () => [same])] });
  const found = foundBy(board, "R03");
  const finding = { ...found, bars: found.bars.slice(0, 32) };
  const long = { ...found, bars: board.sections.flatMap(({ bars }) => bars.map(({ id }) => id)) };
  expect([isCut(finding), isCut(long)]).toEqual([false, true]);
  for (const rule of ["R03", "R27"] as const) {
    const window = windowOf(board, { ...long, rule });
    expect(window.sections.flatMap(({ bars }) => bars).length).toBeLessThanOrEqual(64);
    const rests = long.bars.map((bar) => ({ kind: "lay-out", bar, rest: true }) as const);
    const within = editsWithin(rests, window);
    expect(within.length).toBe(window.sections.flatMap(({ bars }) => bars).length);
  }
});
