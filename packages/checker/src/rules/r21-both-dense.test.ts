/** R21: how many of sixteen steps each part strums, at and beside the limits. */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];

function dense(upper: string, lower: string, more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars(chord, chord), strums: { upper, lower }, ...more });
  return check(board).filter(({ rule }) => rule === "R21");
}

const struck = (count: number) => "DU".repeat(8).slice(0, count).padEnd(16, ".");

// Limits ours.
describe("R21", () => {
  test("R21 twelve of sixteen in both are a fix over the bars", () => {
    expect(dense(struck(12), struck(13))).toMatchObject([
      { severity: "fix", bars: ["b1", "b2"], measured: 12, threshold: 12 },
    ]);
  });

  test("R21 eleven in one are a look, as long as the other has twelve", () => {
    expect(dense(struck(12), struck(11))).toMatchObject([
      { severity: "look", measured: 11, threshold: 8 },
    ]);
    expect(dense(struck(11), struck(11))).toEqual([]);
  });

  test("R21 eight beside twelve are a look, seven nothing", () => {
    expect(dense(struck(8), struck(12))).toMatchObject([{ severity: "look", measured: 8 }]);
    expect(dense(struck(7), struck(16))).toEqual([]);
  });

  test("R21 counts as if the bar had sixteen: nine of twelve in 3/4", () => {
    const meter = { beats: 3, unit: 4 } as const;
    const nine = "DUDUDUDUD...";
    expect(dense(nine, nine, { meter })).toMatchObject([{ severity: "fix", measured: 12 }]);
    const eight = "DUDUDUDU....";
    expect(dense(eight, eight, { meter })).toEqual([]);
  });

  test("R21 ghosts are not counted, nor a lane that rests", () => {
    expect(dense("dudududududududu", struck(16))).toEqual([]);
    expect(dense(struck(16), struck(16), { layOuts: { lower: [1, 2] } })).toEqual([]);
  });

  test("R21 not in a bar that builds or stops", () => {
    const aims = { 1: ["build"], 2: ["stop"] } as const;
    expect(dense(struck(16), struck(16), { aims })).toEqual([]);
    const others = { 1: ["lock"], 2: ["unison"] } as const;
    expect(dense(struck(16), struck(16), { aims: others })).toHaveLength(1);
  });

  test("R21 the limits are the board's", () => {
    expect(dense(struck(12), struck(12), { limits: { denseLane: 13 } })).toEqual([]);
    expect(dense(struck(12), struck(7), { limits: { denseOther: 7 } })).toHaveLength(1);
  });
});
