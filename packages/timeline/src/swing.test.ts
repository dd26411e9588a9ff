/** Swung places: two to one, as the first and last of a triplet; common practice, no source. */
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { isSwung, swung } from "./swing.ts";

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
