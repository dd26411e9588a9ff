/** The shelf of a bar: how much of one register both parts use, and the runs of bars that do. */

import { remembered } from "@halflap/board/remembered";
import type { LaneBar } from "@halflap/timeline/timeline";
import type { FindingNote } from "./finding.ts";
import { notesOfBoth } from "./hit.ts";
import { hasAim, isPair, type PairSegment, type Segment } from "./segments.ts";
import { type Limits, reaches } from "./thresholds.ts";
import type { CheckedBar, CheckedPassage } from "./tune.ts";

/** The slots of a bar in which both parts play; sums are weighted by beats. */
export type Shelf = {
  readonly bar: CheckedBar;
  readonly pairs: readonly PairSegment[];
  readonly notes: readonly FindingNote[];
  readonly beats: number;
  readonly share: number;
  readonly meanGap: number;
  /** The band means it so, or a part leaves all the room there is. */
  readonly isExempt: boolean;
};

/**
 * Every longest run of bars that overlap by the limit of a look or more. Bars that are meant so
 * are left out, and those in which a part leaves all the room there is; of the last bar the chord
 * on which the tune ends.
 */
export function overlapRuns(
  passage: CheckedPassage,
  limits: Limits,
): readonly (readonly Shelf[])[] {
  const last = runsOf.get(passage);
  if (last?.limits === limits) return last.runs;
  const final = finalSegment(passage);
  const runs: Shelf[][] = [];
  let wasOverlap = false;
  for (const bar of passage.bars) {
    const isLast = final !== undefined && bar.segments.includes(final);
    const shelf = isLast ? shelfOf(bar, final) : wholeShelf(bar);
    const { beats, share, isExempt } = shelf;
    const isOverlap = beats > 0 && !isExempt && reaches(share / beats, limits.overlapLook);
    if (isOverlap && wasOverlap) runs.at(-1)?.push(shelf);
    else if (isOverlap) runs.push([shelf]);
    wasOverlap = isOverlap;
  }
  runsOf.set(passage, { limits, runs });
  return runs;
}

/** The chord the tune ends on, if it is played only then: it may be as full as the band likes. */
export function finalSegment(passage: CheckedPassage): Segment | undefined {
  return passage.passage.endsTune ? passage.segments.at(-1) : undefined;
}

/** Remembered, as two rules ask, and after an edit most bars are as they were. */
const runsOf = new WeakMap<CheckedPassage, { readonly limits: Limits; readonly runs: Shelf[][] }>();
const wholeShelf = remembered((bar: CheckedBar) => shelfOf(bar));

function shelfOf(bar: CheckedBar, except?: Segment): Shelf {
  const pairs = bar.segments.filter(isPair).filter((segment) => segment !== except);
  const sum = (measure: (segment: Segment) => number) =>
    pairs.reduce((total, segment) => total + segment.beats * measure(segment), 0);
  return {
    bar,
    pairs,
    notes: pairs.flatMap((segment) => notesOfBoth(segment)),
    beats: sum(() => 1),
    share: sum(({ share }) => share ?? 0),
    meanGap: sum(({ meanGap }) => meanGap ?? 0),
    isExempt: isExempt(bar),
  };
}

/** Whether the band means the bar so, or a part leaves all the room there is. */
export function isExempt({ played, segments }: CheckedBar): boolean {
  const isMeant = segments.some((segment) => hasAim(segment, "unison"));
  return isMeant || isSparse(played.lanes.upper) || isSparse(played.lanes.lower);
}

/** At most one stroke in the bar; without a pattern nobody said how it is struck. */
function isSparse({ strum, attacks }: LaneBar): boolean {
  let struck = 0;
  for (const { notes } of attacks) {
    if (notes.length > 0) struck++;
    if (struck > 1) return false;
  }
  return strum !== undefined;
}
