/** Chords by their place in a key, as roman numerals: SPEC.md T6 and T22. */
import type { Chord, SoundingChord } from "./chord.ts";
import { chordPlace } from "./chord-place.ts";
import type { Key } from "./key.ts";

/** Figures for the chord tone in the bass, from the root up. */
const triadFigures = ["", "6", "64"] as const;
const seventhFigures = ["7", "65", "43", "42"] as const;

/**
 * The chord by its place in the key, ASCII: "I7", "ii7", "V7/ii", "#iv dim7", "I7/5" (the bass by
 * its degree). A major triad or a seventh that may be at home is called a secondary dominant, and a
 * diminished chord a secondary leading-tone chord ("vii dim7/V"), only when `next` is the chord it
 * leads to. undefined for N.C.
 */
export function romanNumeral(chord: Chord, key: Key, next?: Chord): string | undefined {
  if (chord.kind === "no-chord") return undefined;
  const { numeral, target } = chordPlace(chord, key, next);
  const of = target === undefined ? "" : `/${target}`;
  return `${numeral}${quality(chord)}${bassDegree(chord)}${of}`;
}

/**
 * The numeral as harmony books write it, with figured bass for inversions: "ii65", "V43/ii",
 * "vii°7/V", "viiø7", "IM7", "I64". Triads and sevenths over one of their own tones have figures;
 * any other chord is named as `romanNumeral` does. undefined for N.C.
 */
export function figuredNumeral(chord: Chord, key: Key, next?: Chord): string | undefined {
  if (chord.kind === "no-chord") return undefined;
  const figures = figuresOf(chord);
  if (figures === undefined) return romanNumeral(chord, key, next);
  const { numeral, target } = chordPlace(chord, key, next);
  return `${numeral}${figures}${target === undefined ? "" : `/${target}`}`;
}

/** The quality as in the symbol, without the m that the small numeral says; words stand apart. */
function quality(chord: SoundingChord): string {
  const suffix = chord.symbol.slice(chord.root.length).replace(/\/[A-G].*$/, "");
  const bare = suffix.replace(/^m(?!aj)/, "");
  return /^[a-z]/.test(bare) ? ` ${bare}` : bare;
}

function bassDegree(chord: SoundingChord): string {
  if (chord.bass === chord.root) return "";
  const tone = [...chord.tones, ...chord.tensions].find(
    ({ pitchClass }) => pitchClass === chord.bassClass,
  );
  return `/${tone?.degree ?? chord.bass}`;
}

/** Quality sign and figures, "°7" or "M65"; undefined where the chord or its bass has none. */
function figuresOf(chord: SoundingChord): string | undefined {
  const sign = signs.get(chord.tones.map((tone) => tone.degree).join(" "));
  const inversion = chord.tones.findIndex((tone) => tone.pitchClass === chord.bassClass);
  const figures = chord.tones.length === 3 ? triadFigures : seventhFigures;
  const figure = figures[inversion];
  return sign === undefined || figure === undefined ? undefined : sign + figure;
}

/** What a numeral needs besides its size to name the chord; M is a major seventh. */
const signs: ReadonlyMap<string, string> = new Map([
  ["1 3 5", ""],
  ["1 b3 5", ""],
  ["1 b3 b5", "°"],
  ["1 3 #5", "+"],
  ["1 3 5 b7", ""],
  ["1 b3 5 b7", ""],
  ["1 3 5 7", "M"],
  ["1 b3 5 7", "M"],
  ["1 b3 b5 b7", "ø"],
  ["1 b3 b5 bb7", "°"],
  ["1 3 #5 b7", "+"],
  ["1 3 #5 7", "+M"],
]);
