/** The key of a tune: read, written, and everything that is named by it. */
import type { Chord, NoteName, Reading, SoundingChord } from "./chord.ts";
import { type NoteNaming, noteAtStart, writtenNote } from "./note-naming.ts";
import { type Accidentals, className, classOf, noteAbove } from "./pitch.ts";
import { type PitchClass, pitchClass } from "./units.ts";

export type Key = { readonly tonic: NoteName; readonly mode: "major" | "minor" };

/** Why a text names no key: the 0-based column, the part not understood, the nearest key. */
export type KeyError = {
  readonly column: number;
  readonly read: string;
  readonly meant: string | undefined;
};

/** Seven sharps or flats; a signature with more has a plainer twin. */
export const fifthsMax = 7;

const modeShape = /^\s*(?:-\s*(?=\w))?(major|maj|dur|minor|min|moll|mi|m|-)?$/i;
const minorWords = /^(?:minor|min|moll|mi|m|-)$/;

/** Each step of the chromatic scale above a tonic, as most tunes spell it: lowered, but ♯4. */
const chromatic = "1P 2m 2M 3m 3M 4P 4A 5P 6m 6M 7m 7M".split(" ");

/** Steps above the tonic, counted from the major scale in both modes: SPEC.md T6. */
const numerals = "I bII II bIII III IV #IV V bVI VI bVII VII".split(" ");

type Steps = ReadonlyMap<number, string>;

/** The chord a step's secondary dominant leads to, written as the key writes it. */
const targets: Readonly<Record<Key["mode"], Steps>> = {
  major: new Map([
    [2, "ii"],
    [4, "iii"],
    [5, "IV"],
    [7, "V"],
    [9, "vi"],
  ]),
  minor: new Map([
    [3, "bIII"],
    [5, "iv"],
    [7, "V"],
    [8, "bVI"],
    [10, "bVII"],
  ]),
};

/**
 * Steps whose dominant seventh is heard as at home, V7 itself and the blues' I7 and IV7: common
 * practice.
 */
const dominantsAtHome: Readonly<Record<Key["mode"], ReadonlySet<number>>> = {
  major: new Set([0, 5, 7, 10]),
  minor: new Set([5, 7, 8, 10]),
};

/** Major triads that belong to the key; any other may be a dominant if the next chord says so. */
const majorsAtHome: Readonly<Record<Key["mode"], ReadonlySet<number>>> = {
  major: new Set([0, 5, 7]),
  minor: new Set([3, 7, 8, 10]),
};

const fourth = 5;

/**
 * The key a text names: "Bb", "F minor", "Am", "C# major", in German naming "H", "B-Dur",
 * "fis-Moll" as well. A letter alone is the major key. `meant` can be read in the same naming.
 */
export function parseKey(text: string, naming: NoteNaming = "english"): Reading<Key, KeyError> {
  const typed = text.trim();
  const key = keyOf(typed, naming);
  if (key !== undefined && Math.abs(fifthsOf(key)) <= fifthsMax) return { ok: true, value: key };
  const meant = key === undefined ? nearestKey(typed, naming) : twinOf(key);
  return {
    ok: false,
    error: {
      column: text.length - text.trimStart().length,
      read: typed,
      meant: meant && writtenKey(meant, naming),
    },
  };
}

/** The key as it is typed: "Bb" for a major key, "F minor" for a minor one. */
export function printKey(key: Key): string {
  return writtenKey(key, "english");
}

/** The key as it is typed by those who say H and B: "H", "B minor". */
export function writtenKey(key: Key, naming: NoteNaming): string {
  const tonic = writtenNote(key.tonic, naming);
  return key.mode === "major" ? tonic : `${tonic} minor`;
}

/**
 * Sharps (positive) or flats (negative) of the signature: E♭ −3; a minor key has those of its
 * relative major.
 */
export function fifthsOf(key: Key): number {
  const letter = "FCGDAEB".indexOf(key.tonic.charAt(0)) - 1;
  const accidentals = key.tonic.slice(1);
  const raised = accidentals.startsWith("b") ? -accidentals.length : accidentals.length;
  return letter + 7 * raised - (key.mode === "minor" ? 3 : 0);
}

/**
 * How black keys are spelled where the key alone decides: flats in flat keys, sharps in all
 * others.
 */
export function accidentalsOf(key: Key): Accidentals {
  return fifthsOf(key) < 0 ? "flats" : "sharps";
}

/**
 * A pitch class as the key spells it: in F the fourth above B is E♭, the raised fourth B; no
 * double accidentals.
 */
export function nameInKey(value: PitchClass, key: Key): NoteName {
  const step = pitchClass(value - classOf(key.tonic));
  const name = noteAbove(key.tonic, chromatic[step] ?? "1P");
  return name.length > 2 || /^(?:[EB]#|[CF]b)$/.test(name) !== isScaleStep(name, key)
    ? className(value, accidentalsOf(key))
    : name;
}

/**
 * The chord by its place in the key, ASCII: "I7", "ii7", "V7/ii", "#iv dim7", "I7/5" (the bass by
 * its degree). A plain major triad is called a secondary dominant only when `next` is the chord
 * it leads to. undefined for N.C.
 */
export function romanNumeral(chord: Chord, key: Key, next?: Chord): string | undefined {
  if (chord.kind === "no-chord") return undefined;
  const step = pitchClass(chord.rootClass - classOf(key.tonic));
  const target = dominantTarget(chord, step, key, next);
  const slash = bassDegree(chord);
  if (target !== undefined) return `V${quality(chord)}${slash}/${target}`;
  const numeral = numerals[step] ?? "I";
  const isSmall = chord.tones.some((tone) => tone.degree === "b3");
  return `${isSmall ? numeral.toLowerCase() : numeral}${quality(chord)}${slash}`;
}

/**
 * Whether one of E♯, B♯, C♭, F♭ belongs to the scale of the key, so that the white key would
 * misspell it.
 */
function isScaleStep(name: NoteName, key: Key): boolean {
  if (!/^(?:[EB]#|[CF]b)$/.test(name)) return false;
  const place = { "E#": 6, "B#": 7, Cb: -6, Fb: -7 }[name as string] ?? 0;
  return place > 0 ? fifthsOf(key) >= place : fifthsOf(key) <= place;
}

/** The key a trimmed text spells, however many accidentals it has. */
function keyOf(typed: string, naming: NoteNaming): Key | undefined {
  // A small letter before "Moll" is how minor keys are written in German.
  const isSmall = naming === "german" && /moll$/i.test(typed);
  const named = isSmall ? typed.charAt(0).toUpperCase() + typed.slice(1) : typed;
  const tonic = noteAtStart(named, naming);
  const word = modeShape.exec(named.slice(tonic?.length));
  if (tonic === undefined || word === null) return undefined;
  return { tonic: tonic.name, mode: minorWords.test(wordOf(word[1] ?? "")) ? "minor" : "major" };
}

/** One capital M is major, one small m minor; longer words are read in any case. */
function wordOf(word: string): string {
  return word.length > 1 ? word.toLowerCase() : word;
}

function nearestKey(typed: string, naming: NoteNaming): Key | undefined {
  const first = typed.charAt(0).toUpperCase();
  const letter = first === "H" && naming === "english" ? "B" : first;
  if (!/[A-H]/.test(letter)) return undefined;
  const candidates = [letter + typed.slice(1), letter + typed.slice(1, 2), letter];
  for (const candidate of candidates) {
    const key = keyOf(candidate, naming);
    if (key !== undefined && Math.abs(fifthsOf(key)) <= fifthsMax) return key;
  }
  return undefined;
}

/** The same keys of the keyboard under the other name: G♯ major is A♭ major. */
function twinOf(key: Key): Key {
  const tonic = className(classOf(key.tonic), fifthsOf(key) > 0 ? "flats" : "sharps");
  return { tonic, mode: key.mode };
}

function dominantTarget(
  chord: SoundingChord,
  step: PitchClass,
  key: Key,
  next: Chord | undefined,
): string | undefined {
  const hasMajorThird = chord.tones.some((tone) => tone.degree === "3");
  const goal = targets[key.mode].get(pitchClass(step + fourth));
  if (!hasMajorThird || goal === undefined) return undefined;
  if (chord.family === "dominant") return dominantsAtHome[key.mode].has(step) ? undefined : goal;
  const resolves =
    next?.kind === "chord" && next.rootClass === pitchClass(chord.rootClass + fourth);
  const isTriad = chord.symbol.replace(/\/.*$/, "") === chord.root;
  return isTriad && resolves && !majorsAtHome[key.mode].has(step) ? goal : undefined;
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
    ({ pitchClass: tonePitch }) => tonePitch === chord.bassClass,
  );
  return `/${tone?.degree ?? chord.bass}`;
}
