/** R33: written dynamics beside each other, beside a fill, and under the voice. */
import type { Dynamic } from "@halflap/board/playing";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";
import type { SmallFill } from "../test-support/small-playing.ts";

const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];

function loud(upper: Dynamic | "", lower: Dynamic | "", more: Partial<SmallBoard> = {}) {
  const inBarOne = (dynamic: Dynamic | ""): Record<number, Dynamic> =>
    dynamic === "" ? {} : { 1: dynamic };
  const dynamics = { upper: inBarOne(upper), lower: inBarOne(lower) };
  const strums = { upper: "..D..UD.", lower: "D...D..." };
  const board = smallBoard({ sections: bars(chord, chord), dynamics, strums, ...more });
  return check(board).filter(({ rule }) => rule === "R33");
}

const fill: SmallFill = { bar: 2, beat: 3, beats: 2, notes: [[0, "1:8"]] };

// Steps ours. Two equal sounds add 3 dB (level adding, sengpielaudio.com).
describe("R33", () => {
  test("R33 two steps apart are a look over the bars, one step is nothing", () => {
    const [finding, ...more] = loud("f", "mp");
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      ...{ severity: "look", lanes: ["upper", "lower"], bars: ["b1", "b2"] },
      ...{ measured: 2, threshold: 2 },
    });
    expect(finding?.words).toContain("the upper lane is marked much louder than the lower lane");
    expect(loud("mp", "ff")[0]?.words).toContain("the lower lane is marked much louder");
    expect(loud("f", "mf")).toEqual([]);
  });

  test("R33 says nothing where nothing is written, or for one lane only", () => {
    expect(loud("", "")).toEqual([]);
    expect(loud("ff", "")).toEqual([]);
  });

  test("R33 not beside a lane that rests, nor where the louder one fills", () => {
    expect(loud("f", "mp", { layOuts: { lower: [1, 2] } })).toEqual([]);
    expect(loud("f", "mp", { fills: { upper: [fill] } })).toMatchObject([{ bars: ["b1"] }]);
  });

  test("R33 a fill under an equal or louder part is a look at its place, a louder one not", () => {
    const [finding, ...more] = loud("mf", "mf", { fills: { upper: [fill] } });
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      ...{ severity: "look", measured: 0, threshold: 0 },
      spans: [{ bar: "b2", start: 96, end: 192 }],
    });
    expect(finding?.words).toMatch(/^The upper lane fills here, and the lower lane is as loud/);
    expect(loud("mf", "f", { fills: { upper: [fill] } })).toMatchObject([{ measured: 1 }]);
    expect(loud("f", "mf", { fills: { upper: [fill] } })).toEqual([]);
    expect(loud("mf", "mf", { fills: { lower: [fill] } })).toHaveLength(1);
  });

  test("R33 a fill far under the other is said once, with the bars", () => {
    expect(loud("p", "f", { fills: { upper: [fill] } })).toMatchObject([{ bars: ["b1", "b2"] }]);
  });

  test("R33 not for lines, for both filling at once, or for a fill that stands alone", () => {
    expect(loud("mf", "mf", { fills: { upper: [{ ...fill, kind: "line" }] } })).toEqual([]);
    expect(loud("mf", "mf", { fills: { upper: [fill], lower: [fill] } })).toEqual([]);
    const strums = { upper: "..D..UD.", lower: "D......." };
    expect(loud("mf", "mf", { fills: { upper: [fill] }, strums })).toEqual([]);
  });

  test("R33 louder than mf under the voice is a look for that lane, mf is not", () => {
    const phrases = [{ bar: 1, beat: 1, beats: 4 }];
    expect(loud("mf", "f", { phrases })).toMatchObject([
      { severity: "look", lanes: ["lower"], bars: ["b1"], measured: 5, threshold: 4 },
    ]);
    expect(loud("mf", "mf", { phrases })).toEqual([]);
    expect(loud("f", "", { phrases })).toMatchObject([{ lanes: ["upper"] }]);
  });

  test("R33 loud in a gap of the voice is nothing", () => {
    expect(loud("mf", "f", { phrases: [{ bar: 1, beat: 2, beats: 1 }] })).toEqual([]);
    expect(loud("mf", "f", { phrases: [{ bar: 1, beat: 2, beats: 2 }] })).toHaveLength(1);
  });

  test("R33 the limits are the board's", () => {
    expect(loud("f", "mp", { limits: { loudnessStep: 3 } })).toEqual([]);
    const phrases = [{ bar: 1, beat: 1, beats: 4 }];
    expect(loud("mf", "f", { phrases, limits: { loudUnderVoice: 5 } })).toEqual([]);
  });
});
