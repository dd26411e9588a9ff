/**
 * R22: strokes and arm cycles a second, at and beside each limit.
 * Fujii et al., Neurosci. Lett. 459, 2009: one hand 5 to 7 a second; Repp 2003: 100 to 125 ms.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];
const bothWays = "DUDUDUDUDUDUDUDU";
const oneWay = "DDDDDDDD";

function rates(tempo: number, strum: string, more: Partial<SmallBoard> = {}) {
  const sections = bars(chord, chord);
  const board = smallBoard({ sections, tempo, strums: { lower: strum }, ...more });
  return check(board).filter(({ rule }) => rule === "R22");
}

// One hand moves at 5 to 7 Hz, the record is 10 Hz (Fujii et al., Neurosci. Lett. 459, 2009).
describe("R22", () => {
  test.each([
    [120, undefined],
    [121, "look"],
    [150, "look"],
    [151, "fix"],
    [210, "fix"],
    [211, "stop"],
  ])("R22 sixteenths both ways at %i BPM: %s", (tempo, severity) => {
    const found = rates(tempo, bothWays);
    expect(found.map((finding) => finding.severity)).toEqual(severity ? [severity] : []);
    // Two there-and-backs a beat.
    if (severity) expect(found[0]?.measured).toBeCloseTo((2 * tempo) / 60, 10);
  });

  test.each([
    [120, undefined],
    [121, "look"],
    [150, "look"],
    [151, "fix"],
    [210, "fix"],
    [211, "stop"],
  ])("R22 eighths all one way at %i BPM: %s", (tempo, severity) => {
    expect(rates(tempo, oneWay).map((finding) => finding.severity)).toEqual(
      severity ? [severity] : [],
    );
  });

  test("R22 one finding for each lane over its bars, with a way out that fits", () => {
    const [finding, ...more] = rates(160, bothWays);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ lanes: ["lower"], bars: ["b1", "b2"], threshold: 5 });
    expect(finding?.words).toBe(
      "For two bars the lower lane plays 10.7 strokes a second: leave some out, before it gets " +
        "ragged or hurts.",
    );
    expect(rates(160, oneWay)[0]?.words).toContain("strum both ways");
  });

  test("R22 ghosts move the arm as well", () => {
    expect(rates(160, "DudUDudUDudUDudU")).toMatchObject([{ severity: "fix" }]);
    expect(rates(160, "D..UD..UD..UD..U")).toMatchObject([{ severity: "note" }]);
  });

  test("R22 a quick pair of strokes is no cycle: steps under 100 ms are a note", () => {
    // Keeping time breaks down at intervals of 100 to 125 ms (Repp 2003, 2006).
    const pair = "DU..............";
    expect(rates(150, pair)).toEqual([]);
    expect(rates(151, pair)).toMatchObject([{ severity: "note", threshold: 100 }]);
    expect(rates(151, pair)[0]?.measured).toBeCloseTo(60_000 / 151 / 4, 10);
  });

  test("R22 the arm goes on over the bar line", () => {
    const strums = { lower: { 1: "..............DU", 2: "D..............." } };
    expect(rates(151, "", { strums })).toMatchObject([
      { severity: "note", bars: ["b1"] },
      { severity: "fix", bars: ["b2"] },
    ]);
  });

  test("R22 not while the lane rests or fills", () => {
    expect(rates(200, bothWays, { layOuts: { lower: [1, 2] } })).toEqual([]);
    const fills = { lower: [1, 2].map((bar) => ({ bar, beat: 1, beats: 4 })) };
    expect(rates(200, bothWays, { fills })).toEqual([]);
  });

  test("R22 in 6/8 a beat is three eighths", () => {
    const meter = { beats: 6, unit: 8 } as const;
    // Sixteenths, six a beat: three cycles a beat, 4 a second at 80 BPM.
    expect(rates(80, "DUDUDUDUDUDU", { meter })).toEqual([]);
    expect(rates(81, "DUDUDUDUDUDU", { meter })).toMatchObject([{ severity: "look" }]);
  });

  test("R22 the limits are the board's", () => {
    expect(rates(150, bothWays, { limits: { armLook: 6 } })).toEqual([]);
    expect(rates(100, bothWays, { limits: { armStop: 3 } })).toMatchObject([{ severity: "stop" }]);
  });
});
