/** A take is brought to one loudness, and its peaks stay under what the mix leaves free. */
import { expect, test } from "vitest";
import { makeMark } from "./sync-mark.ts";
import { recordingGain, takeGain } from "./take-level.ts";

const tone = (level: number, seconds = 2) =>
  Float32Array.from({ length: seconds * 48_000 }, (_, i) => level * Math.sin(i / 10));

test("quiet and loud takes come to the same loudness", () => {
  const quiet = takeGain(tone(0.05)) * 0.05;
  const loud = takeGain(tone(0.9)) * 0.9;
  expect(Math.abs(quiet / loud - 1)).toBeLessThan(0.001);
});

test("rests in a take do not make it louder", () => {
  const rested = new Float32Array(4 * 48_000);
  rested.set(tone(0.3), 0);
  expect(takeGain(rested) / takeGain(tone(0.3))).toBeCloseTo(1, 2);
});

test("a single knock stays at half of full scale", () => {
  const samples = tone(0.01);
  samples[1000] = 1;
  expect(takeGain(samples)).toBeLessThanOrEqual(0.5);
});

test("silence and noise are not blown up", () => {
  expect(takeGain(new Float32Array(48_000))).toBe(1);
  expect(takeGain(tone(1e-6))).toBe(8);
});

test("the mark before the first beat is no part of how loud a recording is", () => {
  const sampleRate = 48_000;
  const quiet = tone(0.02);
  const samples = new Float32Array(sampleRate + quiet.length);
  samples.set(makeMark(sampleRate), 2000);
  samples.set(quiet, sampleRate);
  const sound = { sampleRate, getChannelData: () => samples };
  expect(recordingGain(sound, 1000)).toBeCloseTo(takeGain(quiet), 6);
  expect(recordingGain(sound, 1000)).toBeGreaterThan(2 * recordingGain(sound, 0));
});
