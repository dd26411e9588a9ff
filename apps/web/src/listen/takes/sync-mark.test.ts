/** The mark is found where it was put, whatever comes after it. */
import { expect, test } from "vitest";
import { findMark, makeMark, markMiddleSeconds } from "./sync-mark.ts";

const rate = 48_000;

/** A recording with a mark at a sample, and something loud from half a second after it on. */
function recording(at: number, level = 1): Float32Array {
  const samples = new Float32Array(3 * rate);
  makeMark(rate).forEach((value, i) => {
    samples[at + i] = value * level;
  });
  for (let i = at + rate / 2; i < samples.length; i += 1) samples[i] = Math.sin(i / 20);
  return samples;
}

test.each([0, 1, 333, 20_000, 60_001])("put at sample %i", (at) => {
  const found = findMark(recording(at), rate) ?? Number.NaN;
  expect(Math.abs(found - at / rate - markMiddleSeconds)).toBeLessThan(0.0002);
});

test("a mark that was written at half the level is found at the same place", () => {
  const found = findMark(recording(5000, 0.5), rate) ?? Number.NaN;
  expect(Math.abs(found - 5000 / rate - markMiddleSeconds)).toBeLessThan(0.0002);
});

test("a silent recording has none", () => {
  expect(findMark(new Float32Array(rate), rate)).toBeUndefined();
});
