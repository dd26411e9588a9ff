/** What a way out costs is said as a guitarist would. */
import { expect, test } from "vitest";
import { costWords } from "./way-cost.ts";

const grips = [{ slot: "s" as never, before: undefined, after: undefined }];

test.each([
  [{ motion: 2, comfort: -0.5, grips }, "2 semitones more to move, a little easier to hold"],
  [{ motion: -1, comfort: 1.5, grips }, "1 semitone less to move, harder to hold"],
  [{ motion: 0, comfort: 0.1, grips }, "no further to move, as easy to hold"],
  [{ motion: 0, comfort: -2, grips }, "no further to move, easier to hold"],
  [{ motion: 3, comfort: 0, grips: [] }, "3 semitones more to move"],
  [{ motion: 0, comfort: 0, grips: [] }, ""],
])("%o", (way, words) => {
  expect(costWords(way)).toBe(words);
});
