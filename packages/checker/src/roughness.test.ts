/** Roughness against figures worked out by another program from the printed formula. */
import { gripPitches, parseGrip } from "@halflap/theory/grip";
import { defaultSetup } from "@halflap/theory/tuning";
import { assert, hz, midiNote } from "@halflap/theory/units";
import { describe, expect, test, vi } from "vitest";
import { roughnessBetween, roughnessOf, sineRoughness } from "./roughness.ts";

function interval(low: number, semitones: number): number {
  return roughnessOf([midiNote(low), midiNote(low + semitones)]);
}

function ofGrip(text: string): number {
  const grip = parseGrip(text, defaultSetup);
  assert(grip.ok, `no grip: ${text}`);
  return roughnessOf(gripPitches(grip.value, defaultSetup));
}

// Sethares, program page sethares.engr.wisc.edu/comprog.html, after Plomp & Levelt, JASA 38, 1965;
// six harmonics that each have 0.88 of the amplitude of the one before.
describe("R12 roughness", () => {
  test("R12 two sines a semitone apart at A4", () => {
    const [a, b] = [440, 466.164].map((frequency) => ({ frequency: hz(frequency), amplitude: 1 }));
    assert(a !== undefined && b !== undefined, "two sines");
    expect(sineRoughness(a, b)).toBeCloseTo(0.89868, 5);
    expect(sineRoughness(b, a)).toBe(sineRoughness(a, b));
    expect(sineRoughness(a, a)).toBe(0);
  });

  test("R12 is highest about a quarter of the critical band apart", () => {
    // x = ln(5.75 / 3.51) / (5.75 - 3.51) = 0.22035 from the two exponentials.
    const low = 440;
    const band = (0.0207 * low + 18.96) / 0.24;
    const at = (x: number) =>
      sineRoughness(
        { frequency: hz(low), amplitude: 1 },
        { frequency: hz(low + x * band), amplitude: 1 },
      );
    expect(at(0.22035)).toBeGreaterThan(at(0.2198));
    expect(at(0.22035)).toBeGreaterThan(at(0.2209));
  });

  test.each([
    [1, 3.8508],
    [2, 2.7214],
    [3, 2.1525],
    [4, 1.9751],
    [5, 1.3357],
    [6, 1.9307],
    [7, 0.6936],
    [8, 1.8124],
    [9, 1.1834],
    [10, 1.4288],
    [11, 1.8871],
    [12, 0.1],
    [13, 1.7818],
  ])("R12 %i semitones above C4 are %f", (semitones, expected) => {
    expect(interval(60, semitones)).toBeCloseTo(expected, 3);
  });

  test.each([
    [48, 3, 4.0227],
    [48, 4, 3.6499],
    [48, 7, 2.0182],
    [36, 4, 7.5322],
    [36, 7, 5.6352],
  ])("R12 low intervals are rougher: from MIDI %i, %i semitones", (low, semitones, expected) => {
    expect(interval(low, semitones)).toBeCloseTo(expected, 3);
  });

  test.each([
    ["x-x-3-2-4-x", 6.812],
    ["3-2-0-0-0-1", 31.097],
    ["1-3-1-2-1-1", 29.12],
  ])("R12 the grip %s is %f", (grip, expected) => {
    expect(ofGrip(grip)).toBeCloseTo(expected, 2);
  });

  test("R12 the draft's first bar, both parts together, is 70.69", () => {
    // F2 C3 Eb3 A3 C4 F4 under F3 C4 Eb4 A4.
    const both = [41, 48, 51, 57, 60, 65, 53, 60, 63, 69].map(midiNote);
    expect(roughnessOf(both)).toBeCloseTo(70.69, 2);
  });

  test("R12 of a pair is the same to the last digit, whichever side was asked first", async () => {
    const pairs = Array.from({ length: 40 }, (_, index) => 41 + index).flatMap((low) =>
      [1, 2, 3, 4, 7, 12].map((distance) => [midiNote(low), midiNote(low + distance)] as const),
    );
    const upwards = pairs.map(([low, high]) => roughnessBetween(low, high));
    expect(pairs.map(([low, high]) => roughnessBetween(high, low))).toEqual(upwards);
    vi.resetModules();
    const { roughnessBetween: afresh } = await import("./roughness.ts");
    expect(pairs.map(([low, high]) => afresh(high, low))).toEqual(upwards);
  });
});
