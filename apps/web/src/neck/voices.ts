/** What each voice of a grip does on the way from the grip before and on to the grip after. */
import { threadsBetween } from "@halflap/theory/threads";
import type { MidiNote, Semitones } from "@halflap/theory/units";

/**
 * Motions into and out of one pitch; empty where there is no neighbour, several where voices meet
 * or part.
 */
export type Voice = {
  readonly pitch: MidiNote;
  readonly from: readonly Semitones[];
  readonly to: readonly Semitones[];
};

/** One voice a pitch, lowest first. All three lists ascend; a missing neighbour is undefined. */
export function voicesOf(
  pitches: readonly MidiNote[],
  before: readonly MidiNote[] | undefined,
  after: readonly MidiNote[] | undefined,
): readonly Voice[] {
  const into = before ? threadsBetween(before, pitches).pairs : [];
  const onward = after ? threadsBetween(pitches, after).pairs : [];
  return pitches.map((pitch) => ({
    pitch,
    from: into.filter((pair) => pair.to === pitch).map((pair) => pair.motion),
    to: onward.filter((pair) => pair.from === pitch).map((pair) => pair.motion),
  }));
}
