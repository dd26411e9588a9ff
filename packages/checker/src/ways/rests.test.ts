/** Laying out. */
import { expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, smallBoard } from "../test-support/small-board.ts";
import { taken, waysOf } from "../test-support/ways.ts";

const full = "1-3-1-2-1-1";

test("O1 a lane that lays out leaves the bar to the other", () => {
  const board = smallBoard({
    sections: bars(["F7", full, "x-x-0-2-1-2"]),
    key: "F",
    capo: { upper: 3 },
  });
  // The upper grip forgot its capo: A flat instead of F.
  const wrong = check(board).find(({ severity }) => severity === "stop");
  expect(wrong).toBeDefined();
  const ways = waysOf(board, wrong?.rule ?? "R13");
  const way = ways.find(({ words }) => words === "Lay out in bar 1");
  expect(way?.edits).toEqual([{ kind: "lay-out", bar: "b1", rest: true }]);
  expect(way && check(taken(board, way)).filter(({ severity }) => severity === "stop")).toEqual([]);
});

test("O6 ways that let both play come before those that silence bars", () => {
  const board = smallBoard({ sections: bars(["F7", full, full], ["F7", full, full]), key: "F" });
  for (const rule of ["R01", "R03"] as const) {
    const rests = waysOf(board, rule).map(({ words }) => words.startsWith("Lay out"));
    expect(rests).toEqual([...rests].sort());
    expect(rests[0]).toBe(false);
  }
});
