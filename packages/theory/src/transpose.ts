/** Notes, keys and chords moved by an interval, spelled as the new key wants. SPEC.md T45. */
import type { Chord, ChordError, NoteName, Reading } from "./chord.ts";
import { fifthsMax, fifthsOf, type Key, nameInKey } from "./key.ts";
import { noteAtStart } from "./note-naming.ts";
import { parseChord } from "./parse-chord.ts";
import { className, classOf, noteName } from "./pitch.ts";
import { soundingChord } from "./sounding-chord.ts";
import { assert, type PitchClass, pitchClass, type Semitones, semitones } from "./units.ts";

/** A tune on its way from one key to another: the keys say how notes are spelled. */
export type Transposition = {
  readonly from: Key;
  readonly into: Key;
  /** From tonic to tonic; up is positive. */
  readonly semitones: Semitones;
};

const letters = "CDEFGAB";
const letterClasses = [0, 2, 4, 5, 7, 9, 11];
const octave = 12;
/** White keys under the name of a neighbour. */
const awkward = /^(?:[EB]#|[CF]b)$/;

/** The transposition of a tune to another tonic, by so many semitones; they must lead there. */
export function transpositionTo(from: Key, tonic: NoteName, distance: Semitones): Transposition {
  const isThere = pitchClass(classOf(from.tonic) + distance) === classOf(tonic);
  assert(isThere, `${distance} semitones above ${from.tonic} is not ${tonic}`);
  return { from, into: plainKey({ ...from, tonic }), semitones: distance };
}

/**
 * The transposition of a tune by semitones: to the key of fewest accidentals on that tonic. Where
 * both spellings have six, flat keys stay flat and all others take sharps.
 */
export function transpositionBy(key: Key, distance: Semitones): Transposition {
  if (distance % octave === 0) return { from: key, into: key, semitones: distance };
  const target = pitchClass(classOf(key.tonic) + distance);
  const [flat, sharp] = [className(target, "flats"), className(target, "sharps")];
  const leaning = fifthsOf(key) < 0 ? -1 : 1;
  const cost = (tonic: NoteName) => {
    const fifths = fifthsOf({ ...key, tonic });
    return Math.abs(fifths) - (Math.sign(fifths) === leaning ? 1 / 2 : 0);
  };
  return transpositionTo(key, cost(sharp) < cost(flat) ? sharp : flat, distance);
}

/** The way back. */
export function inverseOf(by: Transposition): Transposition {
  return { from: by.into, into: by.from, semitones: semitones(0 - by.semitones) };
}

/**
 * A note moved by the interval between the keys, letter and pitch: in C to E♭, E♭ goes to G♭, never
 * to F♯. What would need two accidentals, or be E♯, B♯, C♭ or F♭ outside the new scale, gets the
 * plain name that it has in the new key (T7).
 */
export function transposeNote(name: NoteName, by: Transposition): NoteName {
  const target = pitchClass(classOf(name) + by.semitones);
  const steps = letterOf(by.into.tonic) - letterOf(by.from.tonic) + letters.length;
  if (steps % letters.length === 0 && target === classOf(name)) return name;
  const letter = (letterOf(name) + steps) % letters.length;
  const raised = signedClass(target, letterClasses[letter] ?? 0);
  const signs = (raised < 0 ? "b" : "#").repeat(Math.abs(raised));
  const spelled = Math.abs(raised) <= 1 ? noteName(`${letters[letter]}${signs}`) : undefined;
  const isAwkward = spelled === undefined || awkward.test(spelled);
  return isAwkward ? nameInKey(target, by.into) : spelled;
}

/** A key moved, as of a section that stands in another; it has a signature of seven at most. */
export function transposeKey(key: Key, by: Transposition): Key {
  return plainKey({ ...key, tonic: transposeNote(key.tonic, by) });
}

/** A chord moved, its tones spelled from its new root; N.C. stays. */
export function transposeChord(chord: Chord, by: Transposition): Chord {
  if (chord.kind === "no-chord") return chord;
  const degrees = chord.tones.map((tone) => tone.degree);
  const root = transposeNote(chord.root, by);
  const hasSlash = chord.bass !== chord.root;
  return soundingChord(root, degrees, hasSlash ? transposeNote(chord.bass, by) : undefined);
}

/**
 * A chord symbol moved as it was typed: only root and bass change, unless the quality would then
 * read as another chord; then it becomes the canonical symbol. English names; outer spaces go.
 */
export function transposeSymbol(text: string, by: Transposition): Reading<string, ChordError> {
  const read = parseChord(text);
  if (!read.ok) return read;
  const chord = read.value;
  if (chord.kind === "no-chord") return { ok: true, value: text.trim() };
  const moved = transposeChord(chord, by);
  const typed = renamed(text.trim(), by);
  const again = parseChord(typed);
  const isSame = again.ok && again.value.symbol === moved.symbol;
  return { ok: true, value: isSame ? typed : moved.symbol };
}

/** Root and slash bass renamed, everything between kept to the letter. */
function renamed(symbol: string, by: Transposition): string {
  const root = noteAtStart(symbol, "english");
  if (root === undefined) return symbol;
  const slash = symbol.lastIndexOf("/") + 1;
  const behind = slash === 0 ? "" : symbol.slice(slash).trim();
  const bass = noteAtStart(behind, "english");
  const isBass = bass !== undefined && bass.length === behind.length;
  const quality = symbol.slice(root.length, isBass ? slash : symbol.length);
  return `${transposeNote(root.name, by)}${quality}${isBass ? transposeNote(bass.name, by) : ""}`;
}

/** The key itself, or its twin on the same keys of the keyboard if it has more than seven signs. */
function plainKey(key: Key): Key {
  if (Math.abs(fifthsOf(key)) <= fifthsMax) return key;
  return { ...key, tonic: className(classOf(key.tonic), fifthsOf(key) > 0 ? "flats" : "sharps") };
}

function letterOf(name: NoteName): number {
  return letters.indexOf(name.charAt(0));
}

/** How far a pitch class lies above another by the shorter way, -5..6. */
function signedClass(target: PitchClass, natural: number): number {
  const up = pitchClass(target - natural);
  return up > octave / 2 ? up - octave : up;
}
