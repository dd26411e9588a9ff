/** Relative motion of two voices and of two lanes. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { laneMotion, motionBetween, type RelativeMotion } from "./lane-motion.ts";
import { type MidiNote, midiNote } from "./units.ts";

const pitches = (...values: number[]): MidiNote[] => values.map(midiNote);
const between = (one: readonly [number, number], other: readonly [number, number]) =>
  motionBetween(
    { from: midiNote(one[0]), to: midiNote(one[1]) },
    { from: midiNote(other[0]), to: midiNote(other[1]) },
  );

describe("T43 the four motions of counterpoint (Kostka & Payne, Tonal Harmony)", () => {
  test.each<[[number, number], [number, number], RelativeMotion]>([
    [[60, 60], [48, 48], "still"],
    [[60, 60], [48, 50], "oblique"],
    [[60, 62], [48, 48], "oblique"],
    [[60, 62], [48, 47], "contrary"],
    [[60, 62], [48, 50], "parallel"], // octaves
    [[67, 69], [60, 62], "parallel"], // fifths
    [[64, 65], [60, 62], "parallel"], // a major third becomes a minor one
    [[64, 67], [60, 62], "similar"], // a third becomes a fourth
    [[76, 77], [60, 62], "parallel"], // tenths
    [[76, 65], [60, 59], "similar"], // a tenth becomes a tritone
    [[67, 65], [60, 59], "parallel"], // a fifth becomes a diminished one
    [[65, 65], [65, 64], "oblique"],
    [[60, 65], [64, 62], "contrary"], // crossing
  ])("%j against %j is %s", (one, other, motion) => {
    expect(between(one, other)).toBe(motion);
  });

  test("it is the same seen from either voice, and upside down", () => {
    const pitch = fc.integer({ min: 30, max: 90 });
    fc.assert(
      fc.property(pitch, pitch, pitch, pitch, (a, b, c, d) => {
        const motion = between([a, b], [c, d]);
        const mirrored = between([120 - a, 120 - b], [120 - c, 120 - d]);
        return motion === between([c, d], [a, b]) && motion === mirrored;
      }),
    );
  });

  test("lanes are compared by top, by bottom, and by the outer pair", () => {
    // B♭7 to B°7 on two guitars: only B♭4 rises.
    const upper = { from: pitches(70, 77), to: pitches(71, 77) };
    const lower = { from: pitches(53, 56, 62), to: pitches(53, 56, 62) };
    expect(laneMotion(upper, lower)).toEqual({
      tops: "still",
      bottoms: "oblique",
      outer: "still",
    });
    expect(laneMotion({ from: pitches(70), to: pitches() }, lower)).toBeUndefined();
  });
});
