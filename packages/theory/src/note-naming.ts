/** Note names as they are typed and shown: English, or German with its H and B. SPEC.md T20. */
import type { Chord, NoteName } from "./chord.ts";
import { noteName } from "./pitch.ts";

/** English: B and B♭. German: H and B for these two, and Cis, Es and the like are read as well. */
export type NoteNaming = "english" | "german";

/** A note at the beginning of a text, and how many UTF-16 units it takes. */
export type NoteRead = { readonly name: NoteName; readonly length: number };

const signs = "(?:bb|♭♭|𝄫|##|♯♯|𝄪|x|[b♭#♯♮])?";
const english = new RegExp(`^[A-G]${signs}`);
const germanSigned = new RegExp(`^[A-H]${signs}`);

/** "Es" is E♭, but the "sus" of "Esus4" and "Asus" belongs to the chord. */
const germanEnding = /^(?:[AE]s(?!us)(?:es)?|[CDEFGAH]is(?:is)?|[CDFGH]es(?:es)?)/;

/** The note a text begins with; undefined when it begins otherwise. */
export function noteAtStart(text: string, naming: NoteNaming): NoteRead | undefined {
  if (naming === "english") return noteOf(english.exec(text)?.[0], (written) => written);
  return (
    noteOf(germanEnding.exec(text)?.[0], fromEnding) ??
    noteOf(germanSigned.exec(text)?.[0], fromSigned)
  );
}

/** A note name as it is written: B is "H" and Bb is "B" in German, all others are the same. */
export function writtenNote(name: NoteName, naming: NoteNaming): string {
  if (naming === "english" || !name.startsWith("B")) return name;
  return name === "Bb" ? "B" : `H${name.slice(1)}`;
}

/** The symbol of a chord with root and bass as they are written; ASCII. */
export function writtenSymbol(chord: Chord, naming: NoteNaming): string {
  if (naming === "english" || chord.kind === "no-chord") return chord.symbol;
  const slash = chord.bass === chord.root ? "" : `/${chord.bass}`;
  const quality = chord.symbol.slice(chord.root.length, chord.symbol.length - slash.length);
  const bass = slash === "" ? "" : `/${writtenNote(chord.bass, naming)}`;
  return writtenNote(chord.root, naming) + quality + bass;
}

function noteOf(
  typed: string | undefined,
  toEnglish: (typed: string) => string,
): NoteRead | undefined {
  const name = typed === undefined ? undefined : noteName(toEnglish(typed));
  return typed === undefined || name === undefined ? undefined : { name, length: typed.length };
}

/** Fis → F#, Es → Eb, Heses → Bbb. */
function fromEnding(typed: string): string {
  const letter = typed.charAt(0) === "H" ? "B" : typed.charAt(0);
  const ending = typed.slice(1);
  const isRaised = ending.startsWith("i");
  const isDouble = ending.length > (isRaised ? 2 : letter === "A" || letter === "E" ? 1 : 2);
  return letter + (isRaised ? "#" : "b").repeat(isDouble ? 2 : 1);
}

/** B alone is already lowered; with a flat besides it is the same note, with a sharp no note. */
function fromSigned(typed: string): string {
  if (typed.startsWith("H")) return `B${typed.slice(1)}`;
  if (typed === "B") return "Bb";
  return /^B[#♯x𝄪♮]/u.test(typed) ? "" : typed;
}
