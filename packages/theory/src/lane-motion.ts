/** How two voices move against each other from one grip to the next. SPEC.md T43. */
import { type MidiNote, midiNote } from "./units.ts";

/**
 * What counterpoint calls it: one holds; they go apart or together; they go the same way; they go
 * the same way by the same interval; nobody moves.
 */
export type RelativeMotion = "oblique" | "contrary" | "similar" | "parallel" | "still";

/** A voice on its way from one pitch to another. */
export type VoiceStep = { readonly from: MidiNote; readonly to: MidiNote };

/** Pitches of one lane before and after, in any order; both sound. */
export type LaneStep = { readonly from: readonly MidiNote[]; readonly to: readonly MidiNote[] };

/** How two lanes move by their outer voices. */
export type LaneMotion = {
  readonly tops: RelativeMotion;
  readonly bottoms: RelativeMotion;
  /** The highest voice of the upper against the lowest of the lower lane: what the room hears. */
  readonly outer: RelativeMotion;
};

/** The number an interval can have by its semitones within an octave: a tritone is 4th and 5th. */
const numbers = [[1], [2], [2], [3], [3], [4], [4, 5], [5], [6], [6], [7], [7]];
const octave = 12;
const stepsOfOctave = 7;

/**
 * The motion of two voices. Parallel is the same way by the same number of steps: a minor third may
 * become a major one, as Kostka & Payne, Tonal Harmony, count it.
 */
export function motionBetween(one: VoiceStep, other: VoiceStep): RelativeMotion {
  const [mine, theirs] = [Math.sign(one.to - one.from), Math.sign(other.to - other.from)];
  if (mine === 0 && theirs === 0) return "still";
  if (mine === 0 || theirs === 0) return "oblique";
  if (mine !== theirs) return "contrary";
  const after = intervalNumbers(one.to, other.to);
  const isSame = intervalNumbers(one.from, other.from).some((number) => after.includes(number));
  return isSame ? "parallel" : "similar";
}

/** The motion of two lanes by their outer voices; undefined when one of them is silent. */
export function laneMotion(upper: LaneStep, lower: LaneStep): LaneMotion | undefined {
  const sides = [upper.from, upper.to, lower.from, lower.to];
  if (sides.some((side) => side.length === 0)) return undefined;
  return {
    tops: motionBetween(outerVoice(upper, Math.max), outerVoice(lower, Math.max)),
    bottoms: motionBetween(outerVoice(upper, Math.min), outerVoice(lower, Math.min)),
    outer: motionBetween(outerVoice(upper, Math.max), outerVoice(lower, Math.min)),
  };
}

/** The numbers by which the interval can be called, signed by which of the two is higher. */
function intervalNumbers(one: MidiNote, other: MidiNote): readonly number[] {
  const size = Math.abs(one - other);
  const octaves = Math.floor(size / octave) * stepsOfOctave;
  const sign = one < other ? -1 : 1;
  return (numbers[size % octave] ?? []).map((number) => sign * (number + octaves));
}

function outerVoice(step: LaneStep, pick: (...pitches: number[]) => number): VoiceStep {
  return { from: midiNote(pick(...step.from)), to: midiNote(pick(...step.to)) };
}
