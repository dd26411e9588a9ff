/** A measure is told in the unit in which it was taken. */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import { expect, test } from "vitest";
import { measureOf, withUnit } from "./measure.ts";

test("shares are told in per cent, other measures in their unit", () => {
  const overlap = { measured: 0.9375, threshold: 0.75, unit: "share" } as const;
  expect(measureOf(overlap)).toEqual({ measured: "94 %", from: "75 %" });
  const flam = { measured: 21.637, threshold: 35, unit: "ms" } as const;
  expect(measureOf(flam)).toEqual({ measured: "21.64 ms", from: "35 ms" });
});

test("a tight shift is told as its share of the time that it takes", () => {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const tight = check(makeReader(documents)()).filter(({ words }) => words.endsWith("is tight."));
  expect(tight.map((each) => measureOf(each))).toContainEqual({ measured: "89 %", from: "100 %" });
});

test("empty gaps are gaps, whatever number of beats makes one", () => {
  const empty = { measured: 4, threshold: 2, unit: "gaps" } as const;
  expect(measureOf(empty)).toEqual({ measured: "4 gaps", from: "2 gaps" });
});

test("without a unit the figure stays bare", () => {
  expect(withUnit(1 / 3, "")).toBe("0.33");
});
