/** R19: what locks, what is thin, and what is neither. */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";
import { laneInFeel } from "../test-support/swung-lane.ts";

const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];

function heard(upper: string, lower: string, more: Partial<SmallBoard> = {}) {
  const sections = bars(chord, chord);
  const board = smallBoard({ sections, strums: { upper, lower }, ...more });
  return check(board).filter(({ rule }) => rule === "R19");
}

// Limits ours.
describe("R19", () => {
  test("R19 patterns that answer each other are praised once over their bars", () => {
    expect(heard("..D..UD.", "D...D...")).toMatchObject([
      {
        ...{ severity: "note", isPraise: true, bars: ["b1", "b2"] },
        ...{ measured: 0, threshold: 1 / 3 },
      },
    ]);
  });

  test("R19 a third of the strokes in common still locks, more does not", () => {
    expect(heard("D.D.D.D.", "D.D..U.U")).toMatchObject([{ isPraise: true, measured: 1 / 3 }]);
    expect(heard("D.D.D.D.", "D.D....U")).toEqual([]);
  });

  test("R19 a part whose strokes the other mostly covers does not lock with it", () => {
    expect(heard("D...D...", "DUDUDUDU")).toEqual([]);
    expect(heard("D.......", "DU.DU.D.")).toEqual([]);
    // One of its two strokes falls where the other leaves room: half is enough.
    expect(heard("D..U....", "D.D.D.D.")).toMatchObject([{ isPraise: true, measured: 0.2 }]);
  });

  test("R19 half of the eighths filled lock, below that it is neither", () => {
    expect(heard("D.D.....", "....D.D.")).toMatchObject([{ isPraise: true }]);
    expect(heard("D.D.....", "....D...")).toEqual([]);
  });

  test("R19 under three tenths of the eighths is thin", () => {
    const found = heard("D.......", "....D...");
    expect(found).toMatchObject([
      { severity: "look", isPraise: false, bars: ["b1", "b2"], measured: 0.25, threshold: 0.3 },
    ]);
    expect(heard("D.......", "....D...", { limits: { thinCover: 0.25 } })).toEqual([]);
  });

  test("R19 thin is only what keeps apart: one stroke together is not", () => {
    expect(heard("D.......", "D.......")).toEqual([]);
  });

  test("R19 sixteenths fill the eighth they fall in", () => {
    expect(heard("DU..DU..........", "........DU..DU..")).toMatchObject([{ isPraise: true }]);
    expect(heard("DU..............", "........DU......")).toMatchObject([{ isPraise: false }]);
  });

  test("R19 one pattern swung and straight does not lock", () => {
    const board = smallBoard({ sections: bars(chord), strums: { upper: ".U.U.U.U" } });
    const upper = laneInFeel(board.lanes.upper, "upper", "swing");
    const lower = laneInFeel(board.lanes.upper, "lower", "straight");
    const found = check({ ...board, lanes: { upper, lower } });
    expect(found.filter(({ rule }) => rule === "R19")).toEqual([]);
  });

  test("R19 a fill counts as filled, its bar as strummed outside it", () => {
    const notes = [0, 0.5, 1].map((beats) => [beats, "4:2"] as const);
    const fills = { lower: [{ bar: 2, beat: 3, beats: 2, notes }] };
    expect(heard("..D..UD.", "D...D...", { fills })).toMatchObject([
      { isPraise: true, bars: ["b1", "b2"] },
    ]);
    const unwritten = { lower: [{ bar: 2, beat: 3, beats: 2 }] };
    expect(heard("..D..UD.", "D...D...", { fills: unwritten })).toMatchObject([{ bars: ["b1"] }]);
  });

  test("R19 not where a lane has no pattern, rests, or all stop", () => {
    const board = smallBoard({ sections: bars(chord, chord), strums: { lower: "D...D..." } });
    expect(check(board).filter(({ rule }) => rule === "R19")).toEqual([]);
    expect(heard("..D..UD.", "D...D...", { layOuts: { upper: [1, 2] } })).toEqual([]);
    const aims = { 1: ["stop"], 2: ["stop"] } as const;
    expect(heard("..D..UD.", "D...D...", { aims })).toEqual([]);
  });

  test("R19 a change from locking to thin makes two findings", () => {
    const upper = { 1: "..D..UD.", 2: "D......." };
    const lower = { 1: "D...D...", 2: "....D..." };
    const board = smallBoard({ sections: bars(chord, chord), strums: { upper, lower } });
    const found = check(board).filter(({ rule }) => rule === "R19");
    expect(found.map(({ isPraise, bars }) => [isPraise, bars])).toEqual([
      [true, ["b1"]],
      [false, ["b2"]],
    ]);
  });
});
