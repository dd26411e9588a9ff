/**
 * R07: chords without the tone that makes them, and who may leave it out.
 * Guide-tone teaching: the fifth is left out first, third and seventh make the chord. Common
 * practice, no source.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const high = "x-x-x-x-8-8";
const noSeventh: Played = ["C7", high, "x-3-2-0-1-0"];
const noThird: Played = ["C7", high, "x-3-5-3-x-x"];

function missing(played: readonly Played[], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections: bars(...played), key: "F", ...more })).filter(
    ({ rule }) => rule === "R07",
  );
}

describe("R07", () => {
  test("R07 no 7th in either part is a look", () => {
    const found = missing([noSeventh]);
    expect(found).toMatchObject([{ severity: "look", measured: 1, threshold: 1 }]);
    expect(found[0]?.words).toBe("Nobody plays B♭, so C7 is just C.");
  });

  test("R07 no 3rd is a fix", () => {
    const found = missing([noThird]);
    expect(found).toMatchObject([{ severity: "fix" }]);
    expect(found[0]?.words).toBe("Nobody plays E, so nobody hears whether C7 is major or minor.");
  });

  test("R07 neither 3rd nor 7th is one fix", () => {
    const found = missing([["C7", high, "x-3-5-5-x-x"]]);
    expect(found).toMatchObject([{ severity: "fix", measured: 2 }]);
    expect(found[0]?.words).toBe("Nobody plays E or B♭, so nothing makes it C7.");
  });

  test("R07 as many as the band lets go of are nothing", () => {
    const neither: Played = ["C7", high, "x-3-5-5-x-x"];
    expect(missing([noThird], { limits: { missing: 2 } })).toEqual([]);
    expect(missing([neither], { limits: { missing: 2 } })).toMatchObject([{ measured: 2 }]);
  });

  test("R07 one part having the tone is enough", () => {
    expect(missing([["C7", "x-x-x-x-8-6", "x-3-2-0-1-0"]])).toEqual([]);
  });

  test("R07 no 7th is a fix on a secondary dominant, a look on V7 and on I7 at rest", () => {
    const next: Played = ["F", "-", "-"];
    expect(missing([noSeventh, next], { key: "C" })).toMatchObject([{ severity: "fix" }]);
    expect(missing([noSeventh, next], { key: "F" })).toMatchObject([{ severity: "look" }]);
    const blues: Played = ["F7", "-", "-"];
    expect(missing([noSeventh, blues], { key: "C" })).toMatchObject([{ severity: "look" }]);
  });

  test("R07 the notated bass counts where somebody plays bass", () => {
    const overThird: Played = ["C/E", high, "x-3-x-0-1-x"];
    expect(missing([overThird], { hasBass: true })).toEqual([]);
    expect(missing([overThird], { hasBass: false })).toMatchObject([{ severity: "fix" }]);
  });

  test("R07 a tone in a fill or line of the slot counts as played", () => {
    const filled = (place: string, beat = 3, kind: "fill" | "line" = "fill") =>
      missing([noSeventh], {
        fills: { upper: [{ bar: 1, beat, beats: 1, kind, notes: [[0, place]] }] },
      });
    expect(filled("1:6")).toEqual([]);
    expect(filled("1:6", 3, "line")).toEqual([]);
    expect(filled("1:8")).toHaveLength(1);
    const later: Played = ["C7", high, "x-3-2-0-1-0"];
    const fills = { upper: [{ bar: 2, beat: 1, beats: 1, notes: [[0, "1:6"] as const] }] };
    expect(missing([noSeventh, later], { fills }).map(({ bars }) => bars)).toEqual([["b1"]]);
  });

  test.each(["C5", "Csus4", "C7sus4", "N.C.", "C(no3)"])("R07 not for %s", (chord) => {
    expect(missing([[chord, high, "x-3-5-5-x-x"]])).toEqual([]);
  });

  test("R07 waits while a lane has no grip yet", () => {
    expect(missing([["C7", "-", "x-3-2-0-1-0"]], { hasBass: false })).toEqual([]);
  });

  test("R07 not where one lane rests and a bass plays; without bass it holds", () => {
    const layOuts = { upper: [1] };
    expect(missing([noSeventh], { layOuts, hasBass: true })).toEqual([]);
    const alone = missing([noSeventh], { layOuts, hasBass: false });
    expect(alone).toMatchObject([{ severity: "look", lanes: ["lower"] }]);
  });

  test.each([
    ["Gm7", "x-x-x-x-8-6", "x-x-5-3-3-x", "Nobody plays F, so Gm7 is just Gm."],
    ["C6", high, "x-3-2-0-1-0", "Nobody plays A, so C6 is just C."],
    ["Gm7b5", "x-x-x-x-8-9", "x-x-5-3-2-x", "Nobody plays F, the 7th of Gm7♭5."],
  ])("R07 says what %s lacks", (chord, upper, lower, words) => {
    expect(missing([[chord, upper, lower]])[0]?.words).toBe(words);
  });
});
