/** Fingers, stretches and what no hand can hold. */

import { describe, expect, test } from "vitest";
import { difficultyOf, fingersNeeded, handFret, spanOf, whyUnplayable } from "./hand.ts";
import { grip } from "./test-support/as-read.ts";
import { defaultSetup, type Setup } from "./tuning.ts";
import { fret } from "./units.ts";

const withCapo: Setup = { ...defaultSetup, capo: fret(3) };

describe("T11 strings in a row share a finger", () => {
  test.each([
    ["1-3-3-2-1-1", 3, "the barre runs under what is stopped above it"],
    ["x-x-3-2-4-x", 3, "three frets, three fingers"],
    ["x-x-3-3-3-x", 1, "three neighbours at one fret"],
    ["x-0-2-2-2-0", 1, "neighbours between open strings"],
    ["3-2-0-0-0-3", 3, "an open string breaks the barre"],
    ["5-x-5-5-x-x", 2, "so does a silent one"],
    ["2-1-2-x-x-x", 3, "and a lower fret"],
    ["x-x-0-2-3-2", 2, "a lower barre runs under a higher fret"],
    ["0-0-0-0-0-0", 0, "open strings need none"],
    ["1-2-3-4-5-6", 6, "one each"],
  ])("%s needs %i: %s", (text, fingers) => {
    expect(fingersNeeded(grip(text), defaultSetup)).toBe(fingers);
  });

  test("with a capo the open strings lie at the capo", () => {
    expect(fingersNeeded(grip("x-x-0-2-3-2"), withCapo)).toBe(2);
    expect(handFret(grip("x-x-0-2-3-2"), withCapo)).toBe(5);
    const fromNut: Setup = { ...withCapo, fretsFrom: "nut" };
    expect(fingersNeeded(grip("x-x-3-5-6-5"), fromNut)).toBe(2);
  });
});

describe("T11 a stretch is measured in millimetres between stopped frets", () => {
  test("open strings do not count, and frets lie closer further up", () => {
    expect(spanOf(grip("0-x-x-x-8-8"), defaultSetup)).toBe(0);
    expect(spanOf(grip("x-x-x-x-1-5"), defaultSetup)).toBeGreaterThan(
      spanOf(grip("x-x-x-x-8-12"), defaultSetup),
    );
    expect(spanOf(grip("x-x-x-x-1-4"), withCapo)).toBeLessThan(
      spanOf(grip("x-x-x-x-1-4"), defaultSetup),
    );
  });

  test.each([
    ["x-x-x-x-1-5", undefined],
    ["x-x-x-x-1-6", "It stretches 153 mm; a hand reaches about 127 mm."],
    ["x-x-x-x-12-17", undefined],
    ["1-2-3-4-5-x", "It needs 5 fingers, and a hand has 4."],
    ["x-x-3-2-4-x", undefined],
  ])("%s: %s", (text, why) => {
    expect(whyUnplayable(grip(text), defaultSetup)).toBe(why);
  });

  test("a fret that the capo rules out is named with its string", () => {
    const fromNut: Setup = { ...withCapo, fretsFrom: "nut" };
    expect(whyUnplayable(grip("x-x-2-5-6-5"), fromNut)).toBe(
      "Fret 2 on string 4 is behind the capo or off the neck.",
    );
  });
});

test("T16 each part of the difficulty makes a grip harder", () => {
  const total = (text: string) => difficultyOf(grip(text), defaultSetup).total;
  expect(total("x-x-3-2-1-x")).toBeGreaterThan(total("x-x-3-2-2-x"));
  expect(total("1-3-3-2-1-1")).toBeGreaterThan(total("0-2-2-1-0-0"));
  expect(total("3-x-3-4-x-x")).toBeGreaterThan(total("x-x-3-4-x-x"));
  expect(total("x-x-x-x-18-18")).toBeGreaterThan(total("x-x-x-x-6-6"));
  expect(difficultyOf(grip("1-3-3-2-1-1"), defaultSetup)).toMatchObject({
    fingers: 3,
    barre: 6,
    innerMutes: 0,
    position: 1,
  });
});
