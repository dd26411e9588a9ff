/** Changing one string of a grip leaves the others alone. */
import { fret } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { fretOn, withString } from "./one-string.ts";

const grip = { frets: [undefined, undefined, fret(3), fret(2), fret(4), undefined] };

test("the strings are counted from the highest", () => {
  expect(([6, 4, 3, 2, 1] as const).map((string) => fretOn(grip, string))).toEqual([
    undefined,
    3,
    2,
    4,
    undefined,
  ]);
});

test("one string changes", () => {
  expect(withString(grip, 1, fret(0))?.frets).toEqual([undefined, undefined, 3, 2, 4, 0]);
});

test("a first string makes a grip, lifting the last leaves none", () => {
  const first = withString(undefined, 6, fret(3));
  expect(first?.frets).toEqual([3, ...Array(5).fill(undefined)]);
  expect(withString(first, 6, undefined)).toBeUndefined();
});
