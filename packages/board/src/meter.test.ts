/** Meters: lengths in ticks and beats. */
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import {
  barLengthHolding,
  barLengthOf,
  beatOf,
  isBarLength,
  meterOfBar,
  parseMeter,
  printMeter,
} from "./meter.ts";

// 48 ticks a quarter. Which meters have a dotted beat: common practice, no source.
test.each([
  ["4/4", 192, 48],
  ["3/4", 144, 48],
  ["2/2", 192, 96],
  ["5/4", 240, 48],
  ["6/8", 144, 72],
  ["9/8", 216, 72],
  ["12/8", 288, 72],
  ["3/8", 72, 24],
  ["7/8", 168, 24],
  ["12/16", 144, 36],
])("a bar of %s lasts %i ticks, a beat %i", (text, length, beat) => {
  const meter = parseMeter(text);
  if (meter === undefined) throw new Error(text);
  expect([barLengthOf(meter), beatOf(meter), printMeter(meter)]).toEqual([length, beat, text]);
});

test.each(["", "4", "4/3", "0/4", "33/4", "4/4/4", "-3/4", "C"])("%j is no meter", (text) => {
  expect(parseMeter(text)).toBeUndefined();
});

test("a place lies in the shortest bar of whole beats that ends after it", () => {
  const holding = (start: number, text: string) => {
    const meter = parseMeter(text);
    return meter && barLengthHolding(ticks(start), meter);
  };
  expect([0, 47, 48, 143, 144].map((at) => holding(at, "3/4"))).toEqual([48, 48, 96, 144, 192]);
  expect([143, 144].map((at) => holding(at, "6/8"))).toEqual([144, 216]);
  // 32 halves are the longest bar that can be written.
  expect(holding(32 * 96 - 1, "4/4")).toBe(32 * 96);
  expect(holding(32 * 96, "4/4")).toBeUndefined();
});

test("a bar of any length that may be has a meter it is written in", () => {
  for (const meter of [
    { beats: 4, unit: 4 },
    { beats: 6, unit: 8 },
    { beats: 2, unit: 2 },
  ] as const) {
    for (let length = 1; length <= 3200; length += 1) {
      if (!isBarLength(length)) continue;
      const written = meterOfBar(ticks(length), meter);
      expect(barLengthOf(written)).toBe(length);
      expect(parseMeter(printMeter(written))).toEqual(written);
    }
  }
  for (const length of [0, -48, 13, 48.5, 12 * 33, 3073, Number.NaN, "48"]) {
    expect(isBarLength(length)).toBe(false);
  }
  expect(meterOfBar(ticks(96), { beats: 4, unit: 4 })).toEqual({ beats: 2, unit: 4 });
});
