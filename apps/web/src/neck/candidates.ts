/**
 * The grips suggested for a slot, in order of motion, each with what it would do beside the other
 * lane.
 */
import type { SoundingChord } from "@halflap/theory/chord";
import { type Grip, gripPitches } from "@halflap/theory/grip";
import { gripsOf } from "@halflap/theory/neck";
import { type RankedGrip, rankGrips } from "@halflap/theory/rank";
import type { Setup } from "@halflap/theory/tuning";
import type { MidiNote } from "@halflap/theory/units";
import { type Beside, besideOf, isClear } from "./beside.ts";
import { type Filter, wishesOf } from "./filter.ts";

export type Candidate = { readonly ranked: RankedGrip; readonly beside: Beside | undefined };

export type CandidateSearch = {
  readonly chord: SoundingChord;
  readonly setup: Setup;
  readonly hasBass: boolean;
  readonly filter: Filter;
  readonly before: Grip | undefined;
  readonly after: Grip | undefined;
  /** What the other lane sounds in this slot, ascending; empty when it is silent. */
  readonly others: readonly MidiNote[];
};

/** Every grip that the filter lets through, smallest motion first. */
export function candidatesFor(search: CandidateSearch): readonly Candidate[] {
  const { chord, setup, filter, hasBass, before, after, others } = search;
  const grips = gripsOf(chord, setup, wishesOf(filter, hasBass, setup.lastFret));
  const ranked = rankGrips({
    candidates: grips,
    setup,
    chord,
    before,
    after,
  });
  const candidates = ranked.map((each) => ({
    ranked: each,
    beside: besideOf(gripPitches(each.grip, setup), others),
  }));
  return filter.clear ? candidates.filter((each) => isClear(each.beside)) : candidates;
}
