/** Tones that a chord does not allow, and those of them that are held as a pedal. */
import type { LaneId } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";
import { foreignClasses } from "./foreign.ts";
import type { Segment } from "./segments.ts";
import { soundingChord } from "./tune.ts";

/** What a lane sounds in a slot, by whether the chord there allows it; nothing without a chord. */
export type JudgedPitches = {
  readonly allowed: readonly MidiNote[];
  readonly foreign: readonly MidiNote[];
  /** The classes of the foreign pitches, each once, from the lowest up. */
  readonly foreignClasses: readonly PitchClass[];
};

/** The pitches of both lanes in a slot, judged; remembered. */
export const judgedIn = remembered((segment: Segment) => ({
  upper: judged(segment, "upper"),
  lower: judged(segment, "lower"),
}));

/**
 * For each slot the foreign pitches of a lane that are held as pedals through it: from a chord that
 * allows them, at the same pitch, to another that does.
 */
export function pedalsOf(
  segments: readonly Segment[],
  lane: LaneId,
): readonly (readonly MidiNote[])[] {
  const all = segments.map((segment) => judgedIn(segment)[lane]);
  const before = heldInto(all);
  const after = [...heldInto([...all].reverse())].reverse();
  return before.map((pitches, place) => {
    const back = after[place] ?? none;
    return pitches.length === 0 ? none : pitches.filter((pitch) => back.includes(pitch));
  });
}

const none: readonly MidiNote[] = [];

/** For each slot in turn the foreign pitches that some chord before it allowed and handed on. */
function heldInto(slots: readonly JudgedPitches[]): readonly (readonly MidiNote[])[] {
  let handedOn = none;
  return slots.map(({ allowed, foreign }) => {
    const held = foreign.length === 0 ? none : handedOn.filter((pitch) => foreign.includes(pitch));
    handedOn = held.length === 0 ? allowed : [...held, ...allowed];
    return held;
  });
}

function judged(segment: Segment, lane: LaneId): JudgedPitches {
  const chord = soundingChord(segment);
  const pitches = chord === undefined ? none : (segment[lane] ?? none);
  const classes = chord === undefined ? [] : foreignClasses(pitches, chord);
  const isForeign = (pitch: MidiNote) => classes.includes(pitchClass(pitch));
  return {
    allowed: pitches.filter((pitch) => !isForeign(pitch)),
    foreign: pitches.filter(isForeign),
    foreignClasses: classes,
  };
}
