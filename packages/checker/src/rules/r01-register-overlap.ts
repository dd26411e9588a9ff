/** R01: for some bars both parts sit on the same shelf. */
import type { Severity } from "../finding.ts";
import { type Hit, notesOfBoth, type PassageRule } from "../hit.ts";
import { hasAim, isPair, type PairSegment, type Segment } from "../segments.ts";
import { type Limits, reaches } from "../thresholds.ts";
import type { CheckedPassage, Tune } from "../tune.ts";
import { counted } from "../words.ts";

/** One hit for every longest run of bars in a passage whose parts overlap by half or more. */
export const registerOverlap: PassageRule = (passage, tune) => {
  const final = finalSegment(passage);
  const bars = barsOf(
    passage.segments.filter(
      (segment) => segment !== final && isPair(segment) && !hasAim(segment, "unison"),
    ),
  );
  const runs: PairSegment[][][] = [];
  let last: readonly PairSegment[] | undefined;
  for (const bar of bars) {
    if (!reaches(average(bar, shareOf), tune.limits.overlapLook)) continue;
    if (last !== undefined && isNextBar(last, bar)) runs.at(-1)?.push(bar);
    else runs.push([bar]);
    last = bar;
  }
  return runs.map((run) => hitOf(run, tune));
};

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

/** The chord the tune ends on, if it is played only then: it may be as full as the band likes. */
function finalSegment(passage: CheckedPassage): Segment | undefined {
  return passage.passage.next.length === 0 ? passage.segments.at(-1) : undefined;
}

function barsOf(segments: readonly Segment[]): PairSegment[][] {
  const bars: PairSegment[][] = [];
  for (const segment of segments) {
    if (!isPair(segment)) continue;
    const bar = bars.at(-1);
    if (bar?.[0]?.bar === segment.bar) bar.push(segment);
    else bars.push([segment]);
  }
  return bars;
}

function isNextBar(bar: readonly PairSegment[], next: readonly PairSegment[]): boolean {
  const [a, b] = [bar[0], next[0]];
  return (
    a !== undefined &&
    b !== undefined &&
    a.section === b.section &&
    b.bar.number === a.bar.number + 1
  );
}

const shareOf = (segment: Segment): number => segment.share ?? 0;
const gapOf = (segment: Segment): number => segment.meanGap ?? 0;

/** The mean of a measure, weighted by beats. */
function average(segments: readonly Segment[], measure: (segment: Segment) => number): number {
  const beats = segments.reduce((sum, segment) => sum + segment.beats, 0);
  return segments.reduce((sum, segment) => sum + segment.beats * measure(segment), 0) / beats;
}
