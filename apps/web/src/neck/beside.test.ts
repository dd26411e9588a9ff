/** A grip beside the other lane, against cases worked out by hand. */
import { type MidiNote, midiNote } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { besideOf, isClear, isCovered } from "./beside.ts";

const pitches = (...numbers: number[]): MidiNote[] => numbers.map(midiNote);

describe("beside the other lane", () => {
  test("F A E♭ under G and C is clear", () => {
    expect(isClear(besideOf(pitches(53, 57, 63), pitches(67, 72)))).toBe(true);
  });

  test("a shared pitch is named", () => {
    const beside = besideOf(pitches(53, 57, 60), pitches(60, 67));
    expect(beside?.shared).toEqual([60]);
    expect(isClear(beside)).toBe(false);
  });

  test.each([
    ["a semitone", 64, 65, 1],
    ["a minor ninth", 52, 65, 1],
    ["a major seventh does not rub", 53, 64, 0],
  ])("%s", (_, mine, theirs, count) => {
    expect(besideOf(pitches(mine), pitches(theirs))?.rubs.length).toBe(count);
  });

  test("half of the narrower register covered counts as one place, less does not", () => {
    const half = besideOf(pitches(50, 60), pitches(55, 75));
    const less = besideOf(pitches(50, 60), pitches(56, 75));
    expect([half && isCovered(half), less && isCovered(less)]).toEqual([true, false]);
  });

  test("silence is nothing to compare with", () => {
    expect(besideOf(pitches(50), [])).toBeUndefined();
    expect(isClear(undefined)).toBe(true);
  });
});
