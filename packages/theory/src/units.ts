/** Branded quantities: the unit is in the type, and a number gets it only in its constructor. */

/** 0..127, 60 = middle C (C4). */
export type MidiNote = number & { readonly unit: "MidiNote" };
/** 0..11, 0 = C. */
export type PitchClass = number & { readonly unit: "PitchClass" };
/** 0 = open string (or the capo), counted as the lane says; 24 is the highest. */
export type Fret = number & { readonly unit: "Fret" };
/** A signed distance in equal-tempered semitones. */
export type Semitones = number & { readonly unit: "Semitones" };
/** Musical time; 48 a quarter note. */
export type Ticks = number & { readonly unit: "Ticks" };
/** Cycles a second. */
export type Hz = number & { readonly unit: "Hz" };
/** A length on the neck. */
export type Millimetres = number & { readonly unit: "Millimetres" };

/** The finest grid of the board: divides by 2, 3, 4, 6, 8 and 12. */
export const ticksPerQuarter = 48;
/** The highest fret made. */
export const fretMax = 24;
/** The highest note of the MIDI standard. */
export const midiNoteMax = 127;

/**
 * Throws when a condition that only a bug can break does not hold. The value stands behind the
 * message; it is put into words only then, for these run in the tightest loops.
 */
export function assert(condition: boolean, message: string, value?: number): asserts condition {
  if (!condition) throw new Error(value === undefined ? message : `${message}: ${value}`);
}

/** The MIDI note of an integer 0..127; anything else is a bug. */
export function midiNote(value: number): MidiNote {
  assert(Number.isInteger(value) && value >= 0 && value <= midiNoteMax, "not a MIDI note", value);
  return value as MidiNote;
}

/** The pitch class of any integer, taken modulo 12. */
export function pitchClass(value: number): PitchClass {
  assert(Number.isInteger(value), "not a pitch class", value);
  return (((value % 12) + 12) % 12) as PitchClass;
}

/** The fret of an integer 0..24; anything else is a bug. */
export function fret(value: number): Fret {
  assert(Number.isInteger(value) && value >= 0 && value <= fretMax, "not a fret", value);
  return value as Fret;
}

/** A distance in whole semitones. */
export function semitones(value: number): Semitones {
  assert(Number.isFinite(value), "not a distance", value);
  return value as Semitones;
}

/** A point or length in musical time: a whole number of ticks, 0 or more. */
export function ticks(value: number): Ticks {
  assert(Number.isInteger(value) && value >= 0, "not ticks", value);
  return value as Ticks;
}

/** A frequency above zero. */
export function hz(value: number): Hz {
  assert(value > 0, "not a frequency", value);
  return value as Hz;
}

/** A finite length. */
export function millimetres(value: number): Millimetres {
  assert(Number.isFinite(value), "not a length", value);
  return value as Millimetres;
}
