/** Places: each key its bound, nothing taken where one has none left, given back once. */
import { expect, test } from "vitest";
import { Places } from "./places.ts";

test("a place is taken under each key or under none", () => {
  const places = new Places();
  const all = ["all", 2] as const;
  const leave = places.take([["ada", 1], all]);
  expect(leave).toBeDefined();
  expect(places.take([["ada", 1], all])).toBeUndefined();
  expect(places.take([["ben", 1], all])).toBeDefined();
  expect(places.take([["eve", 1], all])).toBeUndefined();
  leave?.();
  leave?.();
  expect(places.take([["ada", 1], all])).toBeDefined();
  expect(places.take([["eve", 1], all])).toBeUndefined();
});
