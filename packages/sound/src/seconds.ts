/** Time as it is heard, and pitch as cycles in it. */
import { assert, type Hz, hz } from "@halflap/theory/units";

/** A point or length in heard time, 0 or more. */
export type Seconds = number & { readonly unit: "Seconds" };

/** Equal temperament around A4 = 440 Hz, ISO 16:1975. */
const concertA = 440;
const concertPitch = 69;
const octave = 12;

/** A point or length in heard time; below zero is a bug. */
export function seconds(value: number): Seconds {
  assert(value >= 0 && Number.isFinite(value), "not a time", value);
  return value as Seconds;
}

/** The frequency of a MIDI pitch, which may lie between two keys. */
export function frequencyOf(pitch: number): Hz {
  return hz(concertA * 2 ** ((pitch - concertPitch) / octave));
}
