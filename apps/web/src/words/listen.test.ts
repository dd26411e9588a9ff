/** What the slat says of the time through a section, and of sound that can't be had. */
import { expect, test } from "vitest";
import { listenWords, stateWords } from "./listen.ts";

test.each([
  [1, "1st time"],
  [2, "2nd time"],
  [3, "3rd time"],
  [4, "4th time"],
  [11, "11th time"],
  [22, "22nd time"],
])("round %i is called the %s", (round, said) => {
  expect(listenWords.time(round)).toBe(said);
  expect(listenWords.at(5, "Verse", listenWords.time(round))).toBe(`Bar 5, Verse, ${said}`);
});

test("where the sound can't be loaded, reloading the page is named", () => {
  expect(stateWords({ kind: "impossible", why: "failed" })).toMatch(/reload the page/);
});
