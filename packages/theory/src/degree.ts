/** Degrees: where a tone stands above the root of its chord. */
import { interval } from "tonal";
import type { ChordTone, Degree, NoteName } from "./chord.ts";
import { classOf, noteAbove } from "./pitch.ts";
import { assert, type PitchClass, pitchClass } from "./units.ts";

/** Each degree a chord can ask for, with the interval it names (number, then quality). */
const intervalOf: Readonly<Record<string, string>> = {
  "1": "1P",
  b2: "2m",
  "2": "2M",
  b3: "3m",
  "3": "3M",
  "4": "4P",
  b5: "5d",
  "5": "5P",
  "#5": "5A",
  b6: "6m",
  "6": "6M",
  bb7: "7d",
  b7: "7m",
  "7": "7M",
  b9: "9m",
  "9": "9M",
  "#9": "9A",
  "11": "11P",
  "#11": "11A",
  b13: "13m",
  "13": "13M",
};

/** How a tone outside the chord is named, by its distance above the root in semitones. */
const colourNames = ["1", "b9", "9", "b3", "3", "11", "#11", "5", "b13", "13", "b7", "7"] as const;

/** The degree a text names in ASCII, "b3" or "#11"; anything else is a bug. */
export function degree(text: string): Degree {
  assert(intervalOf[text] !== undefined, `not a degree: ${text}`);
  return text as Degree;
}

/** The degree a text names, or undefined for any other text. */
export function degreeOf(text: string): Degree | undefined {
  return Object.hasOwn(intervalOf, text) ? degree(text) : undefined;
}

/** The number of a degree without its accidentals: 7 for "bb7". */
export function degreeNumber(value: Degree): number {
  return Number(value.replace(/^[b#]+/, ""));
}

/** The distance above the root within an octave, 0..11: 3 for "b3", 2 for "9". */
export function degreeClass(value: Degree): PitchClass {
  return pitchClass(interval(intervalOf[value] ?? "").chroma);
}

/** The tone of a degree above a root, spelled by letters. */
export function toneAt(root: NoteName, value: Degree): ChordTone {
  const name = noteAbove(root, intervalOf[value] ?? "");
  return { degree: value, name, pitchClass: classOf(name) };
}

/** The name of a tone that the chord neither asks for nor lists as a colour: b9 for D♭ above C. */
export function foreignDegree(root: PitchClass, tone: PitchClass): Degree {
  return degree(colourNames[pitchClass(tone - root)] ?? "1");
}
