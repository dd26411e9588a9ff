/**
 * R01: runs of bars on one shelf, at and beside each limit.
 * Rodgers, How to make the most of playing with two guitars, acousticguitar.com, 2018: spread
 * into different ranges of pitch. Limits ours.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** Low E to high E against C3 to E4: span 16 inside span 24. */
const inside: Played = ["C", "x-3-2-0-1-0", "0-3-2-0-1-0"];
/** D3 to F4 (15) over E2 to G3: 5 of 15 shared. */
const third: Played = ["C", "x-x-0-2-1-1", "0-3-2-0-x-x"];
/** C4 to G4 (7) and C3 to C4: no share. */
const apart: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];
/** Two semitones of four: G3 to B3 against A3 to C#4. */
const half: Played = ["C", "x-x-x-2-2-x", "x-x-5-4-x-x"];
/** Three semitones of four: G3 to B3 against G#3 to C4. */
const threeQuarters: Played = ["C", "x-x-x-1-1-x", "x-x-5-4-x-x"];
/** Two of five: G3 to C4 against A#3 to D#4. */
const twoFifths: Played = ["C", "x-x-x-3-4-x", "x-x-5-5-x-x"];

function overlaps(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections, ...more, form: more.form ?? [0, 0] })).filter(
    (finding) => finding.rule === "R01",
  );
}

describe("R01", () => {
  test("R01 a section outside the form has no last chord of the tune", () => {
    const of = (form: readonly number[]) =>
      overlaps([...bars(apart), ...bars(inside)], { form }).map(({ bars }) => bars);
    expect(of([0])).toEqual([["b2"]]);
    expect(of([1, 0])).toEqual([["b2"]]);
    expect(of([0, 1])).toEqual([]);
  });

  test("R01 two bars on one shelf are one fix over both bars", () => {
    expect(overlaps(bars(inside, inside))).toMatchObject([
      {
        severity: "fix",
        bars: ["b1", "b2"],
        measured: 1,
        threshold: 0.75,
        id: "R01:upper+lower:s1",
      },
    ]);
  });

  test("R01 names every note that sounds in the run", () => {
    expect(overlaps(bars(inside, inside))[0]?.notes).toHaveLength(22);
  });

  test("R01 a share of exactly 0.75 for two bars is a fix", () => {
    const [finding] = overlaps(bars(threeQuarters, threeQuarters));
    expect(finding).toMatchObject({ severity: "fix", measured: 0.75 });
  });

  test("R01 a share of exactly 0.5 is a look, below it nothing", () => {
    expect(overlaps(bars(half, half))).toMatchObject([{ severity: "look", measured: 0.5 }]);
    expect(overlaps(bars(twoFifths, twoFifths))).toEqual([]);
    expect(overlaps(bars(third, third))).toEqual([]);
  });

  test("R01 between 0.5 and 0.75 stays a look however long it lasts", () => {
    const [finding] = overlaps(bars(threeQuarters, half, threeQuarters, half));
    expect(finding).toMatchObject({ severity: "look", measured: 0.625 });
    expect(finding?.bars).toHaveLength(4);
  });

  test("R01 one bar alone is a fix only when the mean pitches lie within five semitones", () => {
    expect(overlaps(bars(inside, apart))).toMatchObject([{ severity: "fix", bars: ["b1"] }]);
    const wide: Played = ["C", "x-x-x-9-8-8", "0-3-2-0-1-8"];
    expect(overlaps(bars(wide, apart))).toMatchObject([{ severity: "look", bars: ["b1"] }]);
  });

  test("R01 a bar apart ends the run", () => {
    expect(overlaps(bars(inside, apart, inside)).map((finding) => finding.bars)).toEqual([
      ["b1"],
      ["b3"],
    ]);
  });

  test("R01 a run ends with its section", () => {
    const found = overlaps([...bars(inside), ...bars(inside)], { form: [0, 1, 0, 1] });
    expect(found.map((finding) => finding.bars)).toEqual([["b1"], ["b2"]]);
  });

  test("R01 weighs slots by their beats", () => {
    const [finding] = overlaps([[[inside, inside, inside, half]]]);
    expect(finding?.measured).toBe((1 + 1 + 1 + 0.5) / 4);
  });

  test("R01 not where one lane rests or has no grip", () => {
    expect(overlaps(bars(inside, inside), { layOuts: { upper: [1, 2] } })).toEqual([]);
    expect(overlaps(bars(["C", "-", "x-3-2-0-1-0"]))).toEqual([]);
  });

  test("R01 not where a part strikes at most once a bar, if a pattern says so", () => {
    const strummed = (upper: string) =>
      overlaps(bars(inside, inside), { strums: { upper, lower: "D.D.D.D." } });
    expect(strummed("D.......")).toEqual([]);
    expect(strummed("D...D...")).toHaveLength(1);
    expect(overlaps(bars(inside), { strums: { upper: { 1: "D..." } } })).toEqual([]);
  });

  test("R01 ghost strokes leave room too, notes of a fill do not", () => {
    expect(overlaps(bars(inside), { strums: { upper: "Dududu.u" } })).toEqual([]);
    const fills = { upper: [{ bar: 1, beat: 3, beats: 2, notes: [[0, "1:8"] as const] }] };
    expect(overlaps(bars(inside), { strums: { upper: "D......." }, fills })).toHaveLength(1);
  });

  test("R01 not where the unison is meant, which ends a run", () => {
    const aims = { 2: ["unison"] } as const;
    expect(overlaps(bars(inside, inside, inside), { aims }).map(({ bars }) => bars)).toEqual([
      ["b1"],
      ["b3"],
    ]);
    expect(overlaps(bars(inside), { aims: { 1: ["lock"] } })).toHaveLength(1);
  });

  test("R01 not on the chord the tune ends on, unless that bar comes back", () => {
    expect(overlaps(bars(apart, inside), { form: [0] })).toEqual([]);
    expect(overlaps(bars(apart, inside), { form: [0, 0] })).toHaveLength(1);
  });
});
