/** R18: both parts strum the same rhythm. */
import { type BarRun, barRuns, forBars, isMeantAs, meanOver } from "../bar-runs.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { strumPairOf } from "../onsets.ts";
import { reaches } from "../thresholds.ts";
import type { CheckedBar, Tune } from "../tune.ts";

type Verdict = "alike" | "alike on purpose" | "on the beats";

/** One hit for every run of bars strummed alike, and for every run that shares its beats. */
export const sameStrum: PassageRule = (passage, tune) => {
  const { limits } = tune;
  const alike = barRuns(passage, (bar) => likeness(bar, tune)).filter(
    (run) => run.bars.length >= limits.sameStrumBars,
  );
  const told = new Set(alike.flatMap((run) => run.bars));
  const beats = barRuns<Verdict>(passage, (bar) =>
    !told.has(bar) && isJudged(bar) && reaches(beatsShared(bar, tune), limits.sharedBeats)
      ? "on the beats"
      : undefined,
  );
  return [...alike, ...beats].map((run) => hitOf(run, tune));
};

function likeness(bar: CheckedBar, { limits }: Tune): Verdict | undefined {
  if (!isJudged(bar) || !reaches(overlapIn(bar), limits.sameStrum)) return undefined;
  return isMeantAs(bar, "unison") ? "alike on purpose" : "alike";
}

/** One stroke each is no strumming: both hold, or hit a kick. */
function isJudged(bar: CheckedBar): boolean {
  const pair = strumPairOf(bar.played);
  if (pair === undefined || isMeantAs(bar, "lock", "stop")) return false;
  return pair.heard.upper.onsets.length > 1 || pair.heard.lower.onsets.length > 1;
}

function overlapIn(bar: CheckedBar): number {
  return strumPairOf(bar.played)?.overlap ?? 0;
}

/** The share of the bar's beats on which both strike. */
function beatsShared({ played }: CheckedBar, { beat }: Tune): number {
  const pair = strumPairOf(played);
  if (pair === undefined) return 0;
  const onBeats = pair.heard.upper.onsets.filter(
    (onset) => onset % beat === 0 && pair.heard.lower.onsets.includes(onset),
  );
  return onBeats.length / Math.ceil(played.bar.length / beat);
}

function hitOf(run: BarRun<Verdict>, tune: Tune): Hit {
  const isBeats = run.verdict === "on the beats";
  return {
    rule: "R18",
    severity: isBeats ? "note" : run.verdict === "alike" ? "fix" : "look",
    lanes: ["upper", "lower"],
    segments: run.segments,
    notes: [],
    measured: meanOver(run, isBeats ? (bar) => beatsShared(bar, tune) : overlapIn),
    threshold: isBeats ? tune.limits.sharedBeats : tune.limits.sameStrum,
    words: wordsOf(run),
  };
}

function wordsOf(run: BarRun<Verdict>): string {
  const when = forBars(run);
  switch (run.verdict) {
    case "alike":
      return `${when} you both strum the very same strokes: one of you could answer between them.`;
    case "alike on purpose":
      return `${when} you strum alike as well: try whether one rhythm needs both of you.`;
    case "on the beats":
      return `${when} you both strike most of the beats: one of you could move off them.`;
  }
}
