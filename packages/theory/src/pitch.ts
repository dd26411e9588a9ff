/** Pitches and spelled notes: names, numbers and frequencies in twelve-tone equal temperament. */
import { note, transpose } from "tonal";
import type { NoteName } from "./chord.ts";
import {
  assert,
  type Hz,
  hz,
  type MidiNote,
  midiNote,
  midiNoteMax,
  type PitchClass,
  pitchClass,
} from "./units.ts";

/** Which of two spellings a black key gets when nothing else decides. */
export type Accidentals = "flats" | "sharps";

/** Sharps or flats past this many on one note are respelled: nobody reads a triple flat. */
export const accidentalsMax = 2;

/** The tuning fork: A above middle C, ISO 16:1975. */
export const concertA: Hz = hz(440);

const a4 = 69;
const octave = 12;
const classNames: Readonly<Record<Accidentals, readonly string[]>> = {
  flats: "C Db D Eb E F Gb G Ab A Bb B".split(" "),
  sharps: "C C# D D# E F F# G G# A A# B".split(" "),
};

/**
 * The note a text spells, "Bb", "F♯", "Gx", with at most two accidentals; undefined for any other
 * text.
 */
export function noteName(text: string): NoteName | undefined {
  const ascii = asciiAccidentals(text).replace(/^([A-G])(?:x|♮)$/, (whole, letter: string) =>
    whole.endsWith("x") ? `${letter}##` : letter,
  );
  return /^[A-G](?:b{0,2}|#{0,2})$/.test(ascii) ? (ascii as NoteName) : undefined;
}

/** The key of the keyboard a spelled note lies on, 0 = C; B♯ is 0 and C♭ is 11. */
export function classOf(name: NoteName): PitchClass {
  return pitchClass(note(name).chroma);
}

/** A pitch class as a note name, with flats or sharps for the black keys. */
export function className(value: PitchClass, accidentals: Accidentals): NoteName {
  const name = noteName(classNames[accidentals][value] ?? "");
  assert(name !== undefined, `no name for pitch class ${value}`);
  return name;
}

/**
 * The MIDI note of a scientific pitch name, C4 = 60; undefined when it is none or lies beyond
 * 0..127.
 */
export function midiOf(name: string): MidiNote | undefined {
  const parts = /^(\D+?)(-?\d+)$/.exec(name);
  const spelled = noteName(parts?.[1] ?? "");
  if (spelled === undefined) return undefined;
  const height = note(`${spelled}${parts?.[2]}`).height;
  return height >= 0 && height <= midiNoteMax ? midiNote(height) : undefined;
}

/** A pitch as scientific name in ASCII: "Bb3" with flats, "A#3" with sharps. */
export function pitchName(pitch: MidiNote, accidentals: Accidentals): string {
  return `${className(pitchClass(pitch), accidentals)}${Math.floor(pitch / octave) - 1}`;
}

/**
 * A pitch with the spelling it has in a chord: B♯ sounding as C4 is "B#3". The name must fit the
 * pitch.
 */
export function spelledPitch(pitch: MidiNote, name: NoteName): string {
  assert(classOf(name) === pitchClass(pitch), `${name} is not pitch ${pitch}`);
  return `${name}${Math.round((pitch - note(`${name}0`).height) / octave)}`;
}

/**
 * The frequency of a pitch: f = a · 2^((m − 69) / 12), a = 440 Hz unless the band tunes
 * elsewhere.
 */
export function frequency(pitch: MidiNote, a: Hz = concertA): Hz {
  return hz(a * 2 ** ((pitch - a4) / octave));
}

/**
 * The note an interval above, spelled by letters: a diminished seventh above B is A♭, never G♯.
 * The interval is written as number and quality, "3m"; past two accidentals the plain name is
 * taken.
 */
export function noteAbove(root: NoteName, interval: string): NoteName {
  const above = transpose(root, interval);
  assert(above !== "", `no interval: ${interval}`);
  const spelled = noteName(above);
  if (spelled !== undefined) return spelled;
  return className(pitchClass(note(above).chroma), above.includes("b") ? "flats" : "sharps");
}

/** A text with its musical signs ♭ ♯ 𝄫 𝄪 written as b and #; everything else is kept. */
export function asciiAccidentals(text: string): string {
  return text.replaceAll("♭", "b").replaceAll("♯", "#").replaceAll("𝄫", "bb").replaceAll("𝄪", "##");
}
