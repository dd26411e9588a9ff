/** How long ago, in words. */
import { expect, test } from "vitest";
import { whenWords } from "./when-words.ts";

const now = new Date("2031-03-08T20:00:00Z");

test.each([
  ["2031-03-08T19:59:30Z", "now"],
  ["2031-03-08T19:55:00Z", "5 minutes ago"],
  ["2031-03-08T17:30:00Z", "2 hours ago"],
  ["2031-03-07T17:30:00Z", "yesterday"],
  ["2030-12-24T17:30:00Z", "December 24, 2030"],
])("%s is said as %s", (then, words) => {
  expect(whenWords(new Date(then), now, "en-US")).toBe(words);
});

test("a date that can't be read says nothing", () => {
  expect(whenWords(new Date("?"), now, "en-US")).toBe("");
});
