/** Two names of a chord over a capo: the shape the hand holds and what sounds. SPEC.md T46. */
import type { Chord } from "./chord.ts";
import type { Key } from "./key.ts";
import { inverseOf, transposeChord, transposeKey, transpositionBy } from "./transpose.ts";
import { type Fret, semitones } from "./units.ts";

/** The key the hand plays in when the tune sounds in this one: D under capo 3 for F. */
export function shapeKey(sounding: Key, capo: Fret): Key {
  return transposeKey(sounding, lowering(sounding, capo));
}

/**
 * The chord whose open shape the hand holds when this one sounds, spelled for the hand's key: D7
 * for F7 under capo 3.
 */
export function shapeChord(sounding: Chord, key: Key, capo: Fret): Chord {
  return transposeChord(sounding, lowering(key, capo));
}

/** The chord that sounds when the hand holds this shape in a tune of this sounding key. */
export function soundingOfShape(shape: Chord, key: Key, capo: Fret): Chord {
  return transposeChord(shape, inverseOf(lowering(key, capo)));
}

function lowering(key: Key, capo: Fret) {
  return transpositionBy(key, semitones(0 - capo));
}
