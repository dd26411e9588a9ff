/** Grips held as if the capo were not there. */
import { expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, smallBoard } from "../test-support/small-board.ts";
import { relief, taken, waysOf } from "../test-support/ways.ts";

test("O1 R14 the chord is held with the capo counted", () => {
  // x-x-5-4-6-x without a capo is G7; with one on fret 2 it sounds A7.
  const board = smallBoard({
    sections: bars(["G7", "x-x-5-4-6-x", "3-x-3-x-x-x"], ["C", "x-x-3-3-3-x", "x-3-2-x-x-x"]),
    capo: { upper: 2 },
  });
  const ways = waysOf(board, "R14");
  const way = ways.find(({ words }) => words.startsWith("Count the capo"));
  expect(way?.words).toBe("Count the capo on fret 2 in bar 1: x-x-3-2-4-x");
  expect(way && relief(board, way)).toBeGreaterThanOrEqual(100);
  expect(way && check(taken(board, way)).filter(({ rule }) => rule === "R14")).toEqual([]);
});
