/** R20: strokes nearly together, at and beside the limit at the set tempo. */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";
import { laneInFeel } from "../test-support/swung-lane.ts";

const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];

/** The second triplet of a beat against its second sixteenth: a twelfth of a beat apart. */
function flams(tempo: number, more: Partial<SmallBoard> = {}) {
  const strums = { upper: "DU..........", lower: "DU.............." };
  const board = smallBoard({ sections: bars(chord, chord), tempo, strums, ...more });
  return check(board).filter(({ rule }) => rule === "R20");
}

// 31 to 35 ms are just noticed between guitar and bass in a groove: preprint osf jsg94.
describe("R20", () => {
  test("R20 a twelfth of a beat is 33 ms at 150 BPM: one look over the bars", () => {
    const [finding, ...more] = flams(150);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ severity: "look", bars: ["b1", "b2"], threshold: 35 });
    expect(finding?.measured).toBeCloseTo(100 / 3, 10);
    expect(finding?.words).toContain("33 ms apart");
  });

  test("R20 spans from the first of these strokes to the last", () => {
    expect(flams(150)[0]?.spans).toEqual([
      { bar: "b1", start: 12, end: 192 },
      { bar: "b2", start: 0, end: 16 },
    ]);
  });

  test("R20 35 ms exactly are a flam, a little more is heard as two strokes", () => {
    // A twelfth of a beat lasts 35 ms at 1000 / 7 BPM.
    expect(flams(1000 / 7)).toHaveLength(1);
    expect(flams(142.8)).toEqual([]);
  });

  test("R20 the same place is no flam, nor are strokes with a partner on their own place", () => {
    const same = { strums: { upper: "DU..............", lower: "DU.............." } };
    expect(flams(200, same)).toEqual([]);
    const partners = { strums: { upper: "DD..............", lower: "DD.............." } };
    expect(flams(400, partners)).toEqual([]);
  });

  test("R20 names who swings and who does not", () => {
    const board = smallBoard({
      ...{ sections: bars(chord), tempo: 150 },
      strums: { upper: ".U..............", lower: ".U.............." },
    });
    const upper = laneInFeel(board.lanes.upper, "upper", "swing");
    const lower = laneInFeel(board.lanes.upper, "lower", "straight");
    const words = check({ ...board, lanes: { upper, lower } })
      .filter(({ rule }) => rule === "R20")
      .map((finding) => finding.words);
    expect(words).toEqual([
      "The upper lane swings these and the lower lane plays them straight, 33 ms apart.",
    ]);
  });

  test("R20 hears fills as well, and no ghosts", () => {
    const strums = { upper: "D...........", lower: "DU.............." };
    const fills = {
      upper: [{ bar: 1, beat: 1, beats: 1, notes: [[1 / 3, "1:8"]] as const }],
    };
    expect(flams(150, { strums, fills })).toMatchObject([{ bars: ["b1"] }]);
    const ghosts = { upper: "Du..........", lower: "DU.............." };
    expect(flams(150, { strums: ghosts })).toEqual([]);
  });

  test("R20 the limit is the board's", () => {
    expect(flams(150, { limits: { flam: 33 } })).toEqual([]);
    expect(flams(150, { limits: { flam: 34 } })).toHaveLength(1);
  });
});
