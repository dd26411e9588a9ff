/** What a chord does in its key, as far as the rules ask. */
import type { SoundingChord } from "@halflap/theory/chord";
import type { Key } from "@halflap/theory/key";
import { classOf } from "@halflap/theory/pitch";
import { pitchClass } from "@halflap/theory/units";

const perfectFourth = 5;

/** Whether the chord is a dominant, or a diminished chord, that the next root or bass resolves. */
export function resolvesTo(chord: SoundingChord, next: SoundingChord): boolean {
  switch (chord.family) {
    case "dominant":
      return pitchClass(next.rootClass - chord.rootClass) === perfectFourth;
    case "diminished":
    case "half-diminished": {
      const above = pitchClass(chord.rootClass + 1);
      return next.rootClass === above || next.bassClass === above;
    }
    default:
      return false;
  }
}

/** Whether a dominant seventh chord stands on I or IV, where a blues lets it rest. */
export function isStaticDegree(chord: SoundingChord, key: Key): boolean {
  const degree = pitchClass(chord.rootClass - classOf(key.tonic));
  return chord.family === "dominant" && (degree === 0 || degree === perfectFourth);
}

/** Whether a dominant leads to a chord other than I: V7/ii, V7/V and the like. */
export function isSecondaryDominant(chord: SoundingChord, next: SoundingChord, key: Key): boolean {
  const isDominant = chord.family === "dominant" && resolvesTo(chord, next);
  return isDominant && !isAtRest(chord, next, key) && next.rootClass !== classOf(key.tonic);
}

/**
 * Whether a dominant on I or IV moves to another dominant, as a blues does: it wants no
 * resolution.
 */
export function isAtRest(chord: SoundingChord, next: SoundingChord, key: Key): boolean {
  return isStaticDegree(chord, key) && next.family === "dominant";
}
