/** The grips suggested for a slot, in order of motion. */
import type { SoundingChord } from "@halflap/theory/chord";
import { type Grip, gripPitches } from "@halflap/theory/grip";
import { gripsOf } from "@halflap/theory/neck";
import { type RankedGrip, rankGrips } from "@halflap/theory/rank";
import type { Setup } from "@halflap/theory/tuning";
import type { MidiNote } from "@halflap/theory/units";
import { besideOf, isClear } from "./beside.ts";
import { type Filter, wishesOf } from "./filter.ts";

export type CandidateSearch = {
  readonly chord: SoundingChord;
  readonly setup: Setup;
  readonly hasBass: boolean;
  readonly filter: Filter;
  readonly before: Grip | undefined;
  readonly after: Grip | undefined;
};

/**
 * Every grip that the filter lets through, smallest motion first; the filter's wish about the other
 * lane is left to `clearOf`, so that nothing is sought anew for what the other plays.
 */
export function candidatesFor(search: CandidateSearch): readonly RankedGrip[] {
  const { chord, setup, filter, hasBass, before, after } = search;
  const candidates = gripsOf(chord, setup, wishesOf(filter, hasBass, setup.lastFret));
  return rankGrips({ candidates, setup, chord, before, after });
}

/** Those that keep out of the way of what the other lane sounds in the slot, ascending. */
export function clearOf(
  candidates: readonly RankedGrip[],
  setup: Setup,
  others: readonly MidiNote[],
): readonly RankedGrip[] {
  return candidates.filter(({ grip }) => isClear(besideOf(gripPitches(grip, setup), others)));
}
