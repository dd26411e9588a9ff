/** R18: bars strummed alike, at and beside each limit, and what excuses them. */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";
import { laneInFeel } from "../test-support/swung-lane.ts";

const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];
type Strums = NonNullable<SmallBoard["strums"]>;

function alike(count: number, strums: Strums, more: Partial<SmallBoard> = {}) {
  const sections = bars(...Array.from({ length: count }, () => chord));
  return check(smallBoard({ sections, strums, ...more })).filter(({ rule }) => rule === "R18");
}

const eighths = "D.DU.UDU";

// Limits ours; the advice to strum differently: Rodgers, acousticguitar.com 2018.
describe("R18", () => {
  test("R18 two bars alike are one fix over both", () => {
    expect(alike(2, { upper: eighths, lower: eighths })).toMatchObject([
      { severity: "fix", bars: ["b1", "b2"], measured: 1, threshold: 0.9, notes: [] },
    ]);
  });

  test("R18 one bar alike is no fix, and a note only where it shares the beats", () => {
    expect(alike(1, { upper: eighths, lower: eighths })).toMatchObject([
      { severity: "note", measured: 0.75, threshold: 0.75 },
    ]);
    expect(alike(1, { upper: "D..U.U.U", lower: "D..U.U.U" })).toEqual([]);
  });

  test("R18 nine strokes of ten in common are a fix, eight of nine none", () => {
    const ten = "DUDUDUDUDU......";
    const nine = "DUDUDUDUD.......";
    expect(alike(2, { upper: ten, lower: nine })).toMatchObject([
      { severity: "fix", measured: 0.9 },
    ]);
    const eight = "DUDUDUDU........";
    expect(alike(2, { upper: nine, lower: eight })).toEqual([]);
  });

  test("R18 three of four beats struck by both are a note, two are nothing", () => {
    expect(alike(2, { upper: "D.D.D.UU", lower: "D.D.D..." })).toMatchObject([
      { severity: "note", bars: ["b1", "b2"], measured: 0.75 },
    ]);
    expect(alike(2, { upper: "D.D..UUU", lower: "D.D....." })).toEqual([]);
  });

  test("R18 in 6/8 two beats of two are struck by both", () => {
    const meter = { beats: 6, unit: 8 } as const;
    expect(alike(1, { upper: "D.UD.U", lower: "D..D.." }, { meter })).toMatchObject([
      { severity: "note", measured: 1 },
    ]);
    expect(alike(1, { upper: "D.UD.U", lower: "D....." }, { meter })).toEqual([]);
  });

  test("R18 compares what is heard: swung against straight is not alike", () => {
    const board = smallBoard({ sections: bars(chord, chord), strums: { upper: eighths } });
    const inFeel = (feel: "swing" | "straight") => {
      const lower = laneInFeel(board.lanes.upper, "lower", feel);
      const upper = laneInFeel(board.lanes.upper, "upper", "swing");
      return check({ ...board, lanes: { upper, lower } }).filter(({ rule }) => rule === "R18");
    };
    expect(inFeel("swing")).toMatchObject([{ severity: "fix" }]);
    expect(inFeel("straight")).toMatchObject([{ severity: "note" }]);
  });

  test("R18 a ghost stroke is no stroke", () => {
    expect(alike(2, { upper: "DudU.u.U", lower: "D..U...U" })).toMatchObject([
      { severity: "fix", measured: 1 },
    ]);
  });

  test("R18 leaves out what falls in a fill of either lane", () => {
    const fills = { upper: [{ bar: 1, beat: 3, beats: 2, notes: [[0, "1:8"]] as const }] };
    expect(alike(2, { upper: "D.DUD.DU", lower: "D.DU.U.." }, { fills })).toEqual([]);
    expect(alike(2, { upper: "D.DU....", lower: "D.DU..D." }, { fills })).toEqual([]);
    const both = { upper: [1, 2].map((bar) => ({ bar, beat: 3, beats: 2 })) };
    expect(alike(2, { upper: "D.DUD.DU", lower: "D.DU.U.." }, { fills: both })).toMatchObject([
      { severity: "fix", measured: 1 },
    ]);
  });

  test("R18 not where one lane has no pattern, or one stroke is all", () => {
    expect(alike(2, {})).toEqual([]);
    expect(alike(2, { upper: "D......." })).toEqual([]);
    expect(alike(2, { upper: "D.......", lower: "D......." })).toEqual([]);
    expect(alike(2, { upper: "D...D...", lower: "D...D..." })).toMatchObject([{ severity: "fix" }]);
  });

  test("R18 not in bars meant to lock or to stop; where the line is shared it is a look", () => {
    const strums = { upper: eighths, lower: eighths };
    const aims = (aim: "lock" | "stop" | "unison" | "weave") => ({ 1: [aim], 2: [aim] });
    expect(alike(2, strums, { aims: aims("lock") })).toEqual([]);
    expect(alike(2, strums, { aims: aims("stop") })).toEqual([]);
    expect(alike(2, strums, { aims: aims("unison") })).toMatchObject([{ severity: "look" }]);
    expect(alike(2, strums, { aims: aims("weave") })).toMatchObject([{ severity: "fix" }]);
  });

  test("R18 a lane that rests is not compared, and a bar of rest ends the run", () => {
    const strums = { upper: "D..U.U.U", lower: "D..U.U.U" };
    expect(alike(3, strums, { layOuts: { upper: [2] } })).toEqual([]);
    expect(alike(5, strums, { layOuts: { upper: [3] } }).map(({ bars }) => bars)).toEqual([
      ["b1", "b2"],
      ["b4", "b5"],
    ]);
  });

  test("R18 the limits are the board's", () => {
    const strums = { upper: "D..U.U.U", lower: "D..U.U.U" };
    expect(alike(2, strums, { limits: { sameStrumBars: 3 } })).toEqual([]);
    expect(alike(3, strums, { limits: { sameStrumBars: 3 } })).toHaveLength(1);
  });
});
