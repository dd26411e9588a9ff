/** R01: for some bars both parts sit on the same shelf. */
import type { LaneBar } from "@halflap/timeline/timeline";
import type { Severity } from "../finding.ts";
import { type Hit, notesOfBoth, type PassageRule } from "../hit.ts";
import { hasAim, isPair, type PairSegment, type Segment } from "../segments.ts";
import { type Limits, reaches } from "../thresholds.ts";
import type { CheckedBar, CheckedPassage, Tune } from "../tune.ts";
import { counted } from "../words.ts";

/** One hit for every longest run of bars in a passage whose parts overlap by half or more. */
export const registerOverlap: PassageRule = (passage, tune) =>
  overlapRuns(passage, tune).map((run) => hitOf(run, tune));

/** Every longest run of overlapping bars, each bar as the slots that were measured in it. */
export function overlapRuns(
  passage: CheckedPassage,
  { limits }: Tune,
): readonly (readonly PairSegment[][])[] {
  const final = finalSegment(passage);
  const runs: PairSegment[][][] = [];
  let wasOverlap = false;
  for (const bar of passage.bars) {
    const pairs = bar.segments.filter(isPair).filter((segment) => segment !== final);
    const isOverlap =
      pairs.length > 0 && !isExempt(bar) && reaches(average(pairs, shareOf), limits.overlapLook);
    if (isOverlap && wasOverlap) runs.at(-1)?.push(pairs);
    else if (isOverlap) runs.push([pairs]);
    wasOverlap = isOverlap;
  }
  return runs;
}

function hitOf(bars: readonly PairSegment[][], { limits }: Tune): Hit {
  const segments = bars.flat();
  const share = average(segments, shareOf);
  const severity = severityOf(share, bars.length, average(segments, gapOf), limits);
  const span = bars.length === 1 ? "this bar" : `${counted(bars.length)} bars`;
  return {
    rule: "R01",
    severity,
    lanes: ["upper", "lower"],
    segments,
    notes: segments.flatMap((segment) => notesOfBoth(segment)),
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

/** A bar that is meant so, or in which a part leaves all the room there is. */
function isExempt({ played, segments }: CheckedBar): boolean {
  const isMeant = segments.some((segment) => hasAim(segment, "unison"));
  return isMeant || isSparse(played.lanes.upper) || isSparse(played.lanes.lower);
}

/** At most one stroke in the bar; without a pattern nobody said how it is struck. */
function isSparse({ strum, attacks }: LaneBar): boolean {
  return strum !== undefined && attacks.filter(({ notes }) => notes.length > 0).length <= 1;
}

/** The chord the tune ends on, if it is played only then: it may be as full as the band likes. */
export function finalSegment(passage: CheckedPassage): Segment | undefined {
  return passage.passage.next.length === 0 ? passage.segments.at(-1) : undefined;
}

const shareOf = (segment: Segment): number => segment.share ?? 0;
const gapOf = (segment: Segment): number => segment.meanGap ?? 0;

/** The mean of a measure, weighted by beats. */
function average(segments: readonly Segment[], measure: (segment: Segment) => number): number {
  const beats = segments.reduce((sum, segment) => sum + segment.beats, 0);
  return segments.reduce((sum, segment) => sum + segment.beats * measure(segment), 0) / beats;
}
