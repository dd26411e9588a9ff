/** The guide tones as the rules about doubling and leaving out mean them. */
import type { ChordTone, SoundingChord } from "@halflap/theory/chord";

/**
 * 3rd and 7th, the 6th of sixth chords, the 4th of sus chords; an altered fifth makes the chord
 * but guides no ear.
 */
export function guideTonesOf(chord: SoundingChord): readonly ChordTone[] {
  return chord.guideTones.filter((tone) => !tone.degree.endsWith("5"));
}

/** Whether a tone decides between major and minor. */
export function isThird(tone: ChordTone): boolean {
  return tone.degree === "3" || tone.degree === "b3";
}
