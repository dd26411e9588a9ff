/** Chords as the numbers that session players call out: SPEC.md T23. */
import type { Chord, SoundingChord } from "./chord.ts";
import type { Key } from "./key.ts";
import { scaleStep } from "./letter-degree.ts";
import { noteAbove } from "./pitch.ts";

/** A chord by number, in parts for the eye (the quality is set high) and as one line of text. */
export type SessionNumber = {
  /** The step of the major scale, "1" to "7", ASCII accidentals in front: "b7". */
  readonly number: string;
  /** "" for a major triad, "-" minor, "°" diminished, "ø7" half-diminished, "+" augmented, "7". */
  readonly quality: string;
  /** The slash bass as a step of the same scale; undefined when the root is the bass. */
  readonly bass: string | undefined;
  /** "6-", "5⁷", "4maj7", "1/3". */
  readonly text: string;
};

/**
 * What the 1 of a minor key is: the relative major's tonic, so that home is 6-, or the tonic
 * itself, so that home is 1-. Players do both.
 */
export type MinorCount = "relative-major" | "tonic";

const raisedDigits = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** The number of a chord in a key; undefined for N.C. */
export function sessionNumber(
  chord: Chord,
  key: Key,
  minorCount: MinorCount = "relative-major",
): SessionNumber | undefined {
  if (chord.kind === "no-chord") return undefined;
  const isRelative = key.mode === "minor" && minorCount === "relative-major";
  const one = isRelative ? noteAbove(key.tonic, "3m") : key.tonic;
  const number = scaleStep(one, chord.root);
  const quality = qualityOf(chord);
  const bass = chord.bass === chord.root ? undefined : scaleStep(one, chord.bass);
  const slash = bass === undefined ? "" : `/${bass}`;
  return { number, quality, bass, text: `${number}${raised(quality)}${slash}` };
}

/** The quality of the symbol with the signs of the hand-written charts for its words. */
function qualityOf(chord: SoundingChord): string {
  const suffix = chord.symbol.slice(chord.root.length).replace(/\/[A-G][b#]*$/, "");
  return suffix
    .replace(/^m(\d+)b5/, "ø$1")
    .replace(/^dim/, "°")
    .replace(/^aug/, "+")
    .replace(/^m(?!aj)/, "-");
}

/** Digits right behind the number are raised, so that 5 with a seventh is not read as 57. */
function raised(quality: string): string {
  return quality.replace(/^([-°ø+]?)(\d+)/, (_, sign: string, digits: string) => {
    return sign + [...digits].map((digit) => raisedDigits.charAt(Number(digit))).join("");
  });
}
