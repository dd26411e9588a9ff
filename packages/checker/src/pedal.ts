/** Tones that a chord does not allow, and those of them that are held as a pedal. */
import type { LaneId } from "@halflap/board/board";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";
import { foreignClasses } from "./foreign.ts";
import type { Segment } from "./segments.ts";
import { soundingChord } from "./tune.ts";

const known = new WeakMap<Segment, Record<LaneId, readonly PitchClass[]>>();

/** The pitch classes of a lane that the chord of its slot does not allow; remembered. */
export function foreignIn(segment: Segment, lane: LaneId): readonly PitchClass[] {
  const found = known.get(segment) ?? {
    upper: foreignOf(segment, "upper"),
    lower: foreignOf(segment, "lower"),
  };
  known.set(segment, found);
  return found[lane];
}

/**
 * Whether a foreign tone of a slot is a pedal: the lane holds it at its pitch from a chord that
 * allows it to another that does, through this one.
 */
export function isPedal(
  segments: readonly Segment[],
  place: number,
  lane: LaneId,
  tone: PitchClass,
): boolean {
  const pitches = segments[place]?.[lane]?.filter((pitch) => pitchClass(pitch) === tone) ?? [];
  return pitches.every((pitch) =>
    [-1, 1].every((step) => isAllowedNext(segments, place, lane, pitch, step)),
  );
}

/** Going one way while the lane has the pitch: whether a chord that allows it is reached. */
function isAllowedNext(
  segments: readonly Segment[],
  place: number,
  lane: LaneId,
  pitch: MidiNote,
  step: number,
): boolean {
  for (let at = place + step; segments[at]?.[lane]?.includes(pitch); at += step) {
    const segment = segments[at];
    if (segment === undefined || soundingChord(segment) === undefined) return false;
    if (!foreignIn(segment, lane).includes(pitchClass(pitch))) return true;
  }
  return false;
}

function foreignOf(segment: Segment, lane: LaneId): readonly PitchClass[] {
  const chord = soundingChord(segment);
  return chord === undefined ? [] : foreignClasses(segment[lane] ?? [], chord);
}
