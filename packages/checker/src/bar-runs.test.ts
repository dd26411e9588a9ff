/** Runs of bars: where they begin and end, and how they are told. */
import { expect, test } from "vitest";
import { barRuns, forBars, meanOver } from "./bar-runs.ts";
import { bars, type Played, smallBoard } from "./test-support/small-board.ts";
import { preparedBoard } from "./tune.ts";

const chord: Played = ["C", "x-x-x-5-5-3", "-"];

function runsOf(verdicts: string) {
  const board = smallBoard({ sections: bars(...[...verdicts].map(() => chord)) });
  const [passage] = preparedBoard(board).passages;
  if (passage === undefined) return [];
  const verdictOf = (number: number) => verdicts.charAt(number - 1);
  return barRuns(passage, ({ played }) => {
    const verdict = verdictOf(played.bar.number);
    return verdict === "." ? undefined : verdict;
  });
}

test("bars in a row with one verdict are a run; another verdict or none ends it", () => {
  const runs = runsOf("aab.bba");
  expect(runs.map(({ verdict, bars }) => `${verdict}${bars.length}`)).toEqual([
    "a2",
    "b1",
    "b2",
    "a1",
  ]);
  expect(runs[2]?.segments.map(({ slot }) => slot.id)).toEqual(["s5", "s6"]);
  expect(runsOf("...")).toEqual([]);
});

test("a run is told by its length and measured by its mean", () => {
  const [one, two] = runsOf("abb");
  expect(one && forBars(one)).toBe("In this bar");
  expect(two && forBars(two)).toBe("For two bars");
  expect(two && meanOver(two, ({ played }) => played.bar.number)).toBe(2.5);
});
