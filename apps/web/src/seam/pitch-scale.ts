/** The vertical scale of the seam: one for the whole board, so that every line can be compared. */
import type { MidiNote } from "@halflap/theory/units";

/** From MIDI note `low` at the bottom to `high` at the top. */
export type PitchScale = { readonly low: number; readonly high: number };

/** The height of the seam in CSS pixels, and the room it keeps above and below. */
export const seamHeight = 118;
const edge = 5;
/** An empty or narrow board is still shown on two octaves around the middle of the guitar. */
const rangeMin = 24;
const restingMiddle = 57;
/** In semitones: so much more than it needs a scale may hold before it is drawn in. */
const slackMax = 7;

/** The scale that fits every pitch with a whole tone to spare, at least two octaves high. */
export function fittedScale(pitches: Iterable<MidiNote>): PitchScale {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const pitch of pitches) {
    low = Math.min(low, pitch);
    high = Math.max(high, pitch);
  }
  const middle = low > high ? restingMiddle : (low + high) / 2;
  const half = Math.max(rangeMin, high - low + 4) / 2;
  return { low: Math.floor(middle - half), high: Math.ceil(middle + half) };
}

/**
 * The scale to go on with: the one that is drawn as long as the fitted one lies in it and leaves
 * little of it empty. So all lines keep still while a note at either end comes and goes.
 */
export function steadyScale(drawn: PitchScale | undefined, fitted: PitchScale): PitchScale {
  if (drawn === undefined) return fitted;
  const [below, above] = [fitted.low - drawn.low, drawn.high - fitted.high];
  return below >= 0 && above >= 0 && below + above <= slackMax ? drawn : fitted;
}

/** Whether two scales draw alike. */
export function sameScale(a: PitchScale, b: PitchScale): boolean {
  return a.low === b.low && a.high === b.high;
}

/** Pixels from the top of the seam to the middle of a pitch. */
export function heightOf(scale: PitchScale, pitch: number): number {
  const share = (scale.high - pitch) / (scale.high - scale.low);
  return edge + share * (seamHeight - 2 * edge);
}

/** Pixels that a semitone takes. */
export function semitoneHeight(scale: PitchScale): number {
  return (seamHeight - 2 * edge) / (scale.high - scale.low);
}

/** The pitches that get a ruled line and a name: every C inside the scale, as MIDI note numbers. */
export function ruledPitches(scale: PitchScale): readonly number[] {
  const ruled: number[] = [];
  for (let pitch = Math.ceil(scale.low / 12) * 12; pitch <= scale.high; pitch += 12) {
    ruled.push(pitch);
  }
  return ruled;
}
