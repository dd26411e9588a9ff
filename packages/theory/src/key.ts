/** The key of a tune: read, written, its signature, and how it spells notes. */
import type { NoteName, Reading } from "./chord.ts";
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

/** The same keys of the keyboard under the name with fewer accidentals: G♯ major is A♭ major. */
function twinOf(key: Key): Key {
  const flat: Key = { tonic: className(classOf(key.tonic), "flats"), mode: key.mode };
  const sharp: Key = { tonic: className(classOf(key.tonic), "sharps"), mode: key.mode };
  return Math.abs(fifthsOf(sharp)) < Math.abs(fifthsOf(flat)) ? sharp : flat;
}
