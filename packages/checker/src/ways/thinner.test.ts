/** Strings left out, and the same grips an octave elsewhere. */
import { describe, expect, test } from "vitest";
import { bars, smallBoard } from "../test-support/small-board.ts";
import { relief, taken, waysOf } from "../test-support/ways.ts";

describe("O1 strings left out", () => {
  test("R08 the low third goes", () => {
    // G2-B2, the open G of both tables' limits (see R08).
    const board = smallBoard({
      sections: bars(["G7", "x-x-x-10-8-x", "3-2-0-0-0-1"]),
    });
    const way = waysOf(board, "R08").find(({ words }) => words.startsWith("Leave out"));
    expect(way?.lane).toBe("lower");
    expect(way?.words).toMatch(/^Leave out strings? [\d, and]+ in bar 1$/);
    expect(way && relief(board, way)).toBeGreaterThan(0);
    const after = way && taken(board, way).lanes.lower.grips;
    const frets = [...(after?.values() ?? [])][0]?.frets ?? [];
    expect(frets.filter((fret) => fret !== undefined).length).toBeGreaterThanOrEqual(2);
  });

  test("R11 the string that rubs goes", () => {
    // F4 on string 2 against E3 and the open E4.
    const board = smallBoard({
      sections: bars(["C7", "x-x-10-9-6-x", "x-3-2-3-1-0"]),
      hasBass: false,
    });
    const way = waysOf(board, "R11").find(({ words }) => words.startsWith("Leave out"));
    expect(way?.removes.map(({ rule }) => rule)).toContain("R11");
    expect(way && relief(board, way)).toBeGreaterThan(0);
  });
});

test("O1 the same grip an octave up gets out of the other's register", () => {
  const board = smallBoard({ sections: bars(["F7", "x-x-3-2-4-x", "x-x-3-2-4-x"]), key: "F" });
  const way = waysOf(board, "R03").find(({ words }) => words.includes("an octave up"));
  expect(way?.grips[0]?.after?.frets).toEqual([undefined, undefined, 15, 14, 16, undefined]);
  expect(way && relief(board, way)).toBeGreaterThan(0);
});
