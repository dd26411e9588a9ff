/** What a chord symbol means: its root, tones with degrees, bass, and what makes it that chord. */
import type { PitchClass } from "./units.ts";

/**
 * A spelled note without an octave: letter and accidentals, "Bb", "F#", "Ebb". ASCII only; see
 * display.ts.
 */
export type NoteName = string & { readonly unit: "NoteName" };

/** A chord degree as musicians write it, ASCII: "1", "b3", "#5", "bb7", "9", "#11", "13". */
export type Degree = string & { readonly unit: "Degree" };

/** One tone a chord symbol asks for. */
export type ChordTone = {
  readonly degree: Degree;
  readonly name: NoteName;
  readonly pitchClass: PitchClass;
};

export type ChordFamily =
  | "major"
  | "minor"
  | "dominant"
  | "diminished"
  | "half-diminished"
  | "augmented"
  | "suspended"
  | "power";

/** A sounding chord. `tones` runs in thirds from the root and does not repeat a slash bass. */
export type SoundingChord = {
  readonly kind: "chord";
  readonly symbol: string; // canonical ASCII spelling; parsing it again gives this chord
  readonly root: NoteName;
  readonly rootClass: PitchClass;
  readonly family: ChordFamily;
  readonly tones: readonly ChordTone[];
  /** The slash bass if written, else the root. */
  readonly bass: NoteName;
  readonly bassClass: PitchClass;
  /**
   * The tones that make it this chord: 3rd and 7th (6th in sixth chords, 4th and 7th in sus7, 3rd
   * in triads).
   */
  readonly guideTones: readonly ChordTone[];
  /** Left out first to last: the plain fifth, then the root (with a bass player). */
  readonly omittable: readonly ChordTone[];
  /** Colours that may be added without contradicting the symbol. */
  readonly tensions: readonly ChordTone[];
};

/** N.C.: nobody plays a chord. */
export type NoChord = { readonly kind: "no-chord"; readonly symbol: "N.C." };

export type Chord = SoundingChord | NoChord;

export type ChordError = {
  readonly kind: "empty" | "unknown-root" | "unknown-quality" | "unknown-bass" | "contradiction";
  /** 0-based column inside the symbol where reading stopped. */
  readonly column: number;
  /** The part not understood, as typed. */
  readonly read: string;
  /** The nearest chord symbol, if one is near. */
  readonly meant: string | undefined;
};

/** The value or the error of a reading; a bad symbol is never thrown. */
export type Reading<T, E> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: E };
