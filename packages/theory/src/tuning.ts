/**
 * A guitar as its lane sets it up: six open pitches, capo, and from where its frets are counted.
 */
import type { NoteName, Reading } from "./chord.ts";
import { asciiAccidentals, classOf, midiOf, noteName, pitchName } from "./pitch.ts";
import {
  assert,
  type Fret,
  fret,
  type MidiNote,
  type Millimetres,
  midiNote,
  millimetres,
} from "./units.ts";

/** String number as guitarists count: 6 = lowest, 1 = highest. */
export type StringNumber = 1 | 2 | 3 | 4 | 5 | 6;

/** Exactly six open pitches, string 6 (lowest) first, without the capo. */
export type Tuning = readonly MidiNote[];

/** Everything needed to turn frets into pitches. */
export type Setup = {
  readonly tuning: Tuning;
  /** The fret the capo lies on; 0 = none. */
  readonly capo: Fret;
  /** Whether a typed fret 3 with the capo on 2 lies one fret or three above the capo. */
  readonly fretsFrom: "nut" | "capo";
  /** The last fret of the neck, counted from the nut. */
  readonly lastFret: Fret;
  readonly scaleLength: Millimetres;
};

/**
 * Why a text is no tuning: the 0-based column, the part not understood, what was probably meant.
 */
export type TuningError = {
  readonly kind: "wrong-count" | "unknown-note" | "out-of-range";
  readonly column: number;
  readonly read: string;
  readonly meant: string | undefined;
};

/** A tuning under the name guitarists give it. */
export type NamedTuning = { readonly name: string; readonly tuning: Tuning };

/** Strings of a guitar. */
export const stringCount = 6;

/** All strings, lowest first, as a grip is written. */
export const stringNumbers: readonly StringNumber[] = [6, 5, 4, 3, 2, 1];

/** No string is tuned below C1 or above B4: whoever types more has mistaken the octave. */
export const openPitchMin: MidiNote = midiNote(24);
export const openPitchMax: MidiNote = midiNote(71);

/** E2 A2 D3 G3 B3 E4. */
export const standardTuning: Tuning = tuningOf("E2 A2 D3 G3 B3 E4");

/** The tunings most two-guitar bands use, standard first: common practice, no source. */
export const tuningPresets: readonly NamedTuning[] = [
  { name: "Standard", tuning: standardTuning },
  { name: "Drop D", tuning: tuningOf("D2 A2 D3 G3 B3 E4") },
  { name: "Open G", tuning: tuningOf("D2 G2 D3 G3 B3 D4") },
  { name: "DADGAD", tuning: tuningOf("D2 A2 D3 G3 A3 D4") },
  { name: "Half step down", tuning: tuningOf("Eb2 Ab2 Db3 Gb3 Bb3 Eb4") },
];

/** Standard tuning, no capo, 22 frets on a 648 mm (25½ inch) scale. */
export const defaultSetup: Setup = {
  tuning: standardTuning,
  capo: fret(0),
  fretsFrom: "capo",
  lastFret: fret(22),
  scaleLength: millimetres(648),
};

const separators = /[\s,;|-]+/;
const octave = 12;

/**
 * The tuning a text names: a preset's name, six notes "D A D G A D" or "DADGAD" (each the octave
 * nearest to that string's standard pitch), or six pitches "D2 A2 D3 G3 A3 D4". Lowest string
 * first.
 */
export function parseTuning(text: string): Reading<Tuning, TuningError> {
  const typed = text.trim();
  const preset = tuningPresets.find(({ name }) => name.toLowerCase() === typed.toLowerCase());
  if (preset !== undefined) return { ok: true, value: preset.tuning };
  const notes = notesIn(text);
  const pitches: MidiNote[] = [];
  for (const [index, note] of notes.entries()) {
    const pitch = stringPitch(note.text, index);
    if (pitch === undefined) return { ok: false, error: noteError(note) };
    if (pitch < openPitchMin || pitch > openPitchMax) {
      return failure("out-of-range", note.column, note.text);
    }
    pitches.push(pitch);
  }
  if (pitches.length === stringCount) return { ok: true, value: pitches };
  const seventh = notes[stringCount];
  return failure("wrong-count", seventh?.column ?? text.length, seventh?.text ?? "");
}

/** The tuning as six pitches, "D2 A2 D3 G3 A3 D4"; reading it gives the tuning again. */
export function printTuning(tuning: Tuning): string {
  return tuning.map((pitch) => pitchName(pitch, "flats")).join(" ");
}

/** The name of a tuning for the eye: its preset's, else its notes, lowest string first. */
export function tuningName(tuning: Tuning): string {
  const preset = tuningPresets.find((named) => named.tuning.join() === tuning.join());
  return preset?.name ?? printTuning(tuning).replace(/-?\d/g, "");
}

/** The pitch a string sounds unfretted, the capo left out. */
export function openPitch(tuning: Tuning, string: StringNumber): MidiNote {
  const pitch = tuning[stringCount - string];
  assert(pitch !== undefined, "no such string", string);
  return pitch;
}

/**
 * The fret of the neck, counted from the nut, that a typed fret means. Where frets are counted
 * from the nut, 0 is the string stopped by the capo and nothing lies between nut and capo.
 * undefined behind the capo or beyond the neck. SPEC.md T8.
 */
export function neckFret(setup: Setup, typed: Fret): Fret | undefined {
  const position =
    setup.fretsFrom === "capo" ? typed + setup.capo : typed === 0 ? setup.capo : typed;
  return position < setup.capo || position > setup.lastFret ? undefined : fret(position);
}

/**
 * The pitch of a string at a typed fret, capo included; undefined behind the capo or beyond the
 * neck.
 */
export function pitchAt(setup: Setup, string: StringNumber, typed: Fret): MidiNote | undefined {
  const position = neckFret(setup, typed);
  return position === undefined ? undefined : midiNote(openPitch(setup.tuning, string) + position);
}

/** Whether a typed fret leaves the string to the nut or the capo, so that no finger is needed. */
export function isOpen(setup: Setup, typed: Fret): boolean {
  return neckFret(setup, typed) === setup.capo;
}

/**
 * The lowest fret number that is on the neck, which is where open strings sound: 0, or the capo's
 * own.
 */
export function lowestFret(setup: Setup): Fret {
  return setup.fretsFrom === "capo" ? fret(0) : setup.capo;
}

/** The highest fret number that is on the neck, counted as the lane counts. */
export function highestFret(setup: Setup): Fret {
  return setup.fretsFrom === "capo" ? fret(setup.lastFret - setup.capo) : setup.lastFret;
}

/** The fret to type for a place on the neck; an open string is typed 0 either way. */
export function typedFret(setup: Setup, position: Fret): Fret {
  assert(position >= setup.capo, "a fret behind the capo", position);
  if (position === setup.capo) return fret(0);
  return fret(setup.fretsFrom === "capo" ? position - setup.capo : position);
}

type NoteText = { readonly text: string; readonly column: number };

/**
 * The notes of the text with their columns; letters written together are cut before each capital.
 */
function notesIn(text: string): readonly NoteText[] {
  const notes: NoteText[] = [];
  for (const word of text.matchAll(new RegExp(`[^${separators.source.slice(1, -2)}]+`, "gu"))) {
    for (const note of word[0].matchAll(/[A-G](?:[b#♭♯]{0,2})-?\d?|./gu)) {
      notes.push({ text: note[0], column: word.index + note.index });
    }
  }
  return notes;
}

function stringPitch(text: string, index: number): MidiNote | undefined {
  const name = noteName(text);
  return name === undefined
    ? midiOf(asciiAccidentals(text))
    : nearestPitch(name, standardTuning[index] ?? openPitchMax);
}

function nearestPitch(name: NoteName, near: MidiNote): MidiNote {
  const up = (((classOf(name) - near) % octave) + octave) % octave;
  return midiNote(near + (up > octave / 2 ? up - octave : up));
}

function noteError(note: NoteText): TuningError {
  const capital = note.text.toUpperCase().replace("H", "B");
  const meant = noteName(capital);
  return { kind: "unknown-note", column: note.column, read: note.text, meant };
}

function failure(
  kind: TuningError["kind"],
  column: number,
  read: string,
): Reading<Tuning, TuningError> {
  return { ok: false, error: { kind, column, read, meant: undefined } };
}

/** Six pitch names that are known to be right. */
function tuningOf(text: string): Tuning {
  return text.split(" ").map((name) => {
    const pitch = midiOf(name);
    assert(pitch !== undefined, `no pitch: ${name}`);
    return pitch;
  });
}
