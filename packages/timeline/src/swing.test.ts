/** Swung places: two to one, as the first and last of a triplet; common practice, no source. */
import { ticks } from "@halflap/theory/units";
import fc from "fast-check";
import { expect, test } from "vitest";
import { isSwung, swingMax, swingMin, swung, swungTogether, usualSwing } from "./swing.ts";

const common = { beats: 4, unit: 4 } as const;

test.each([
  [0, 0],
  [12, 16],
  [24, 32],
  [36, 40],
  [48, 48],
  [72, 80],
  [168, 176],
])("S2 what is written at %i is heard at %i", (written, heard) => {
  expect(swung(ticks(written))).toBe(heard);
});

test.each([16, 32, 8, 6, 30])("S2 what is finer than sixteenths or a triplet stays: %i", (at) => {
  expect(swung(ticks(at))).toBe(at);
});

test.each([24, 27, 29, 32, 36])(
  "S2 with %i ticks before the off-beat, it is there exactly",
  (long) => {
    for (const quarter of [0, 48, 144]) {
      expect(swung(ticks(quarter), ticks(long))).toBe(quarter);
      expect(swung(ticks(quarter + 24), ticks(long))).toBe(quarter + long);
      // Sixteenths halve what is left on either side, to the nearest tick.
      expect(Math.abs(swung(ticks(quarter + 12), ticks(long)) - quarter - long / 2)).toBeLessThan(
        0.6,
      );
      const late = quarter + (long + 48) / 2;
      expect(Math.abs(swung(ticks(quarter + 36), ticks(long)) - late)).toBeLessThan(0.6);
      expect(swung(ticks(quarter + 16), ticks(long))).toBe(quarter + 16);
    }
  },
);

test("S2 places heard beside each other keep their order, apart, before the bar's end", () => {
  const places = fc.uniqueArray(fc.integer({ min: 0, max: 191 }), { minLength: 1, maxLength: 64 });
  const long = fc.integer({ min: swingMin, max: swingMax });
  const length = fc.constantFrom(192, 36, 60, 84, 168);
  fc.assert(
    fc.property(places, long, length, (all, first, end) => {
      const inOrder = all.filter((at) => at < end).sort((a, b) => a - b);
      const hear = swungTogether(all, ticks(end), ticks(first));
      const heard = [...inOrder.map(hear), end];
      expect(heard.slice(1).every((at, i) => at > (heard[i] ?? end))).toBe(true);
      expect(heard.every((at, i) => at >= (inOrder[i] ?? 0))).toBe(true);
    }),
  );
});

test("S2 what keeps clear of all that moves leaves its quarter swung", () => {
  const heard = (places: readonly number[]) => places.map(swungTogether(places, ticks(192)));
  expect(heard([0, 12, 24, 36])).toEqual([0, 16, 32, 40]);
  expect(heard([0, 24, 45, 72])).toEqual([0, 32, 45, 80]);
  expect(heard([0, 24, 32, 72])).toEqual([0, 24, 32, 80]);
  expect(heard([12, 18, 24, 30])).toEqual([12, 18, 24, 30]);
});

test("S2 from even over two to one up to three to one, and no further", () => {
  expect([swingMin / 48, usualSwing / 48, swingMax / 48]).toEqual([1 / 2, 2 / 3, 3 / 4]);
  expect(() => swung(ticks(24), ticks(23))).toThrow("not a swing");
  expect(() => swung(ticks(24), ticks(37))).toThrow("not a swing");
});

test("S2 a pattern's own feel goes before the board's", () => {
  const [swing, straight] = [
    { feel: "swing", meter: common },
    { feel: "straight", meter: common },
  ] as const;
  expect([isSwung(swing, "board"), isSwung(swing, "straight")]).toEqual([true, false]);
  expect([isSwung(straight, "board"), isSwung(straight, "swing")]).toEqual([false, true]);
  expect(isSwung({ feel: "shuffle", meter: common }, "board")).toBe(true);
});

test("S2 eighths that are beats or thirds of beats are never swung", () => {
  expect(isSwung({ feel: "swing", meter: { beats: 6, unit: 8 } }, "swing")).toBe(false);
  expect(isSwung({ feel: "swing", meter: { beats: 2, unit: 2 } }, "board")).toBe(true);
});
