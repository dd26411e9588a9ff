/** A measure is told in the unit of the limit that it crossed. */
import { expect, test } from "vitest";
import { measureOf, withUnit } from "./measure.ts";

const asItComes = { limits: new Map<string, number>() };

test("shares are told in per cent, other limits in their unit", () => {
  const overlap = { rule: "R01", measured: 0.9375, threshold: 0.75 } as const;
  expect(measureOf(overlap, asItComes)).toEqual({ measured: "94 %", from: "75 %" });
  const flam = { rule: "R20", measured: 21.637, threshold: 35 } as const;
  expect(measureOf(flam, asItComes)).toEqual({ measured: "21.64 ms", from: "35 ms" });
});

test("a band's own limit is found by its own value", () => {
  const overlap = { rule: "R01", measured: 0.9, threshold: 0.6 } as const;
  const own = { limits: new Map([["overlapFix", 0.6]]) };
  expect(measureOf(overlap, own).from).toBe("60 %");
  expect(measureOf(overlap, asItComes).from).toBe("0.6");
});

test("without a unit the figure stays bare", () => {
  expect(withUnit(1 / 3, "")).toBe("0.33");
});
