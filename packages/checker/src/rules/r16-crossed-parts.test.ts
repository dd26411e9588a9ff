/**
 * R16: parts that cross or change places. Huron, Music Perception 19(1), 2001: keep voices apart.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** G4 and C5 over C3, E3, G3. */
const apart: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];
/** C4 to C5 over G2 to E4: 4 of 12 shared. */
const crossed: Played = ["C", "x-x-10-9-8-8", "3-x-2-0-1-0"];
/** C3 to G3 over G4 and C5. */
const swapped: Played = ["C", "x-3-2-0-x-x", "x-x-x-x-8-8"];

function crossings(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  const form = sections.flatMap((_, index) => [index, index]);
  return check(smallBoard({ sections, form, ...more })).filter(({ rule }) => rule === "R16");
}

describe("R16", () => {
  test("R16 a bar in which some notes cross is a note", () => {
    const found = crossings(bars(apart, crossed, apart));
    expect(found).toMatchObject([{ severity: "note", bars: ["b2"], measured: 1, threshold: 0.25 }]);
    expect(found[0]?.words).toBe(
      "In this bar the parts cross: the lower lane reaches up into the upper lane.",
    );
    expect(found[0]?.notes).toEqual([
      { lane: "upper", slot: "s2", pitch: 60 },
      { lane: "lower", slot: "s2", pitch: 64 },
    ]);
  });

  test("R16 the low part above the high one is a look", () => {
    const found = crossings(bars(apart, apart, apart, swapped, swapped));
    expect(found).toMatchObject([{ severity: "look", bars: ["b4", "b5"] }]);
    expect(found[0]?.words).toBe(
      "For two bars the lower lane, otherwise the low part, lies above the upper lane.",
    );
  });

  test("R16 knows the low part by its pitches, not by its lane", () => {
    const found = crossings(bars(swapped, swapped, swapped, apart));
    expect(found).toMatchObject([{ severity: "look", bars: ["b4"] }]);
    expect(found[0]?.words).toContain("the upper lane, otherwise the low part, lies above");
  });

  test("R16 crossed and swapped bars are findings of their own", () => {
    const found = crossings(bars(apart, apart, apart, crossed, swapped));
    expect(found.map(({ bars, severity }) => [bars, severity])).toEqual([
      [["b4"], "note"],
      [["b5"], "look"],
    ]);
  });

  test("R16 a quarter of the beats may cross, more may not", () => {
    const quarter = [apart, apart, apart, crossed];
    const half = [apart, crossed];
    expect(crossings([[quarter]])).toEqual([]);
    expect(crossings([[half]])).toMatchObject([{ measured: 0.5 }]);
  });

  test("R16 touching at one pitch is no crossing", () => {
    const touching: Played = ["C", "x-x-x-x-5-8", "x-3-2-0-5-x"];
    expect(crossings(bars(apart, touching))).toEqual([]);
  });

  test("R16 not where the parts weave, nor for a riff in unison", () => {
    for (const aim of ["weave", "unison"] as const) {
      expect(crossings(bars(apart, crossed), { aims: { 2: [aim] } })).toEqual([]);
    }
  });

  test("R16 is silent in bars that R01 speaks about", () => {
    const inside: Played = ["C", "x-3-2-0-1-0", "0-3-2-0-1-0"];
    expect(crossings(bars(apart, inside))).toEqual([]);
    const found = crossings(bars(apart, inside, crossed, apart));
    expect(found.map(({ bars }) => bars)).toEqual([["b3"]]);
  });

  test("R16 not on the chord the tune ends on", () => {
    expect(crossings(bars(apart, crossed), { form: [0] })).toEqual([]);
  });
});
