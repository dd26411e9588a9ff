/** R19: the parts lock into one another, which is good to hear, or leave it thin. */
import { type BarRun, barRuns, forBars, isMeantAs, meanOver } from "../bar-runs.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { eighthsFilled, strumPairOf } from "../onsets.ts";
import { exceeds, reaches } from "../thresholds.ts";
import type { CheckedBar, Tune } from "../tune.ts";

type Verdict = "locks" | "thin";

/** One hit for every run of bars in which two patterns mostly keep out of each other's way. */
export const interlock: PassageRule = (passage, tune) =>
  barRuns(passage, (bar) => verdictOn(bar, tune)).map((run) => hitOf(run, tune));

function verdictOn(bar: CheckedBar, { limits }: Tune): Verdict | undefined {
  const pair = strumPairOf(bar.played);
  if (pair === undefined || isMeantAs(bar, "stop") || hasUnwrittenFill(bar)) return undefined;
  if (!reaches(limits.interlock, pair.writtenOverlap)) return undefined;
  const filled = eighthsFilled(bar.played);
  if (reaches(filled, limits.interlockCover)) {
    return exceeds(pair.coveredShare, limits.interlockCovered) ? undefined : "locks";
  }
  return reaches(filled, limits.thinCover) ? undefined : "thin";
}

/** A fill of which only the place is agreed: nobody knows yet how much it fills. */
function hasUnwrittenFill({ played: { lanes } }: CheckedBar): boolean {
  return [...lanes.upper.figures, ...lanes.lower.figures].some(
    ({ fill }) => fill.notes.length === 0,
  );
}

function hitOf(run: BarRun<Verdict>, { limits }: Tune): Hit {
  const locks = run.verdict === "locks";
  const measure = (bar: CheckedBar) =>
    locks ? (strumPairOf(bar.played)?.writtenOverlap ?? 0) : eighthsFilled(bar.played);
  return {
    rule: "R19",
    severity: locks ? "note" : "look",
    isPraise: locks,
    lanes: ["upper", "lower"],
    segments: run.segments,
    notes: [],
    measured: meanOver(run, measure),
    threshold: locks ? limits.interlock : limits.thinCover,
    words: locks
      ? `${forBars(run)} you two lock: what one leaves open the other plays.`
      : `${forBars(run)} there is little going on between you: a stroke or two more would carry.`,
  };
}
