/** How places in a section are said. */
import { expect, test } from "vitest";
import { beatWords } from "./places.ts";

test.each([
  [1, "1"],
  [2.5, "2½"],
  [3.25, "3¼"],
  [4.75, "4¾"],
  [1 + 1 / 3, "1.33"],
])("%f is %s", (beats, words) => {
  expect(beatWords(beats)).toBe(words);
});
