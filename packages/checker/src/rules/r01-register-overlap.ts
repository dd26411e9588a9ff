/** R01: for some bars both parts sit on the same shelf. */
import type { Severity } from "../finding.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { overlapRuns, type Shelf } from "../shelves.ts";
import { type Limits, reaches } from "../thresholds.ts";
import { counted } from "../words.ts";

/** One hit for every longest run of bars in a passage whose parts overlap by half or more. */
export const registerOverlap: PassageRule = (passage, { limits }) =>
  overlapRuns(passage, limits).map((run) => hitOf(run, limits));

function hitOf(run: readonly Shelf[], limits: Limits): Hit {
  const share = mean(run, (shelf) => shelf.share);
  const severity = severityOf(
    share,
    run.length,
    mean(run, (shelf) => shelf.meanGap),
    limits,
  );
  const span = run.length === 1 ? "this bar" : `${counted(run.length)} bars`;
  return {
    rule: "R01",
    severity,
    lanes: ["upper", "lower"],
    segments: joined(run.map(({ pairs }) => pairs)),
    notes: joined(run.map(({ notes }) => notes)),
    measured: share,
    threshold: severity === "fix" ? limits.overlapFix : limits.overlapLook,
    words:
      severity === "fix"
        ? `For ${span} you two sit on the same shelf: one of you could move up or thin out.`
        : `For ${span} you two share much of one shelf.`,
  };
}

function severityOf(share: number, bars: number, meanGap: number, limits: Limits): Severity {
  const isCertain = bars >= limits.overlapFixBars || meanGap < limits.meanGapTie;
  return reaches(share, limits.overlapFix) && isCertain ? "fix" : "look";
}

/** The mean over a run of what its bars sum up by beats. */
function mean(run: readonly Shelf[], sum: (shelf: Shelf) => number): number {
  const beats = run.reduce((total, shelf) => total + shelf.beats, 0);
  return run.reduce((total, shelf) => total + sum(shelf), 0) / beats;
}

/** Lists end to end: a long run names thousands of notes, which flatMap takes its time over. */
function joined<T>(lists: readonly (readonly T[])[]): readonly T[] {
  const all: T[] = [];
  for (const list of lists) all.push(...list);
  return all;
}
