/** R21: both parts strum so much that neither is heard. */
import { type BarRun, barRuns, forBars, isMeantAs, meanOver } from "../bar-runs.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { sixteenthsStrummed } from "../onsets.ts";
import { reaches } from "../thresholds.ts";
import type { CheckedBar, Tune } from "../tune.ts";

type Verdict = "both" | "one and half";

/** One hit for every run of bars with full strumming in one part and no room in the other. */
export const bothDense: PassageRule = (passage, tune) =>
  barRuns(passage, (bar) => verdictOn(bar, tune)).map((run) => hitOf(run, tune));

function verdictOn(bar: CheckedBar, { limits }: Tune): Verdict | undefined {
  if (isMeantAs(bar, "stop", "build")) return undefined;
  if (reaches(thinner(bar), limits.denseLane)) return "both";
  const isOne = reaches(fuller(bar), limits.denseLane);
  return isOne && reaches(thinner(bar), limits.denseOther) ? "one and half" : undefined;
}

function hitOf(run: BarRun<Verdict>, { limits }: Tune): Hit {
  const both = run.verdict === "both";
  return {
    rule: "R21",
    severity: both ? "fix" : "look",
    lanes: ["upper", "lower"],
    segments: run.segments,
    notes: [],
    measured: meanOver(run, thinner),
    threshold: both ? limits.denseLane : limits.denseOther,
    words: both
      ? `${forBars(run)} you both strum nearly every sixteenth: one of you could just chop.`
      : `${forBars(run)} one of you strums every sixteenth and the other half of them: thin out.`,
  };
}

function thinner({ played: { lanes } }: CheckedBar): number {
  return Math.min(sixteenthsStrummed(lanes.upper), sixteenthsStrummed(lanes.lower));
}

function fuller({ played: { lanes } }: CheckedBar): number {
  return Math.max(sixteenthsStrummed(lanes.upper), sixteenthsStrummed(lanes.lower));
}
