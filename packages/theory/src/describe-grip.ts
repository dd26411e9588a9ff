/** Puts a grip into words: its notes and degrees, its strings, its inversion. */
import type { Chord, Degree, NoteName, SoundingChord } from "./chord.ts";
import { foreignDegree } from "./degree.ts";
import { pretty } from "./display.ts";
import { type Grip, type GripNote, gripNotes, printGrip, type StringNumber } from "./grip.ts";
import {
  formOf,
  formWords,
  type GripForm,
  type Spacing,
  spacingOf,
  spacingWords,
} from "./grip-names.ts";
import { type Key, nameInKey } from "./key.ts";
import type { Setup } from "./tuning.ts";
import { type Fret, type MidiNote, pitchClass } from "./units.ts";

/** A sounding string with the name and degree it has in the chord. */
export type DescribedNote = {
  readonly string: StringNumber;
  readonly fret: Fret;
  readonly pitch: MidiNote;
  readonly name: NoteName;
  /**
   * undefined when there is no chord; a tone outside it is named by its distance above the root.
   */
  readonly degree: Degree | undefined;
};

export type Inversion =
  | "root position"
  | "first inversion"
  | "second inversion"
  | "third inversion";

export type GripDescription = {
  /** String 6 to 1. */
  readonly notes: readonly DescribedNote[];
  /** The sounding strings, lowest first: "4-3-2". */
  readonly stringSet: string;
  /**
   * Which of root, third, fifth, seventh is lowest; undefined when it is another tone, or without
   * a chord.
   */
  readonly inversion: Inversion | undefined;
  /** Whether there is a chord and its root does not sound. */
  readonly rootless: boolean;
  /** How the notes are spaced; undefined where players have no word for it, or without a chord. */
  readonly spacing: Spacing | undefined;
  /** The open chord it is a moved copy of; undefined when it is none's, or without a chord. */
  readonly form: GripForm | undefined;
  /** What players call it: "shell, root position, E form at fret 1"; may be empty. */
  readonly names: string;
  /** "x-x-3-2-4-x, F A E♭, 1 3 ♭7": up to the first comma it reads back as the grip. */
  readonly text: string;
};

const inversions: Readonly<Record<string, Inversion>> = {
  "1": "root position",
  "3": "first inversion",
  "5": "second inversion",
  "7": "third inversion",
};

/**
 * The grip described within its chord; without one, notes are spelled by the key and have no
 * degree.
 */
export function describeGrip(
  grip: Grip,
  setup: Setup,
  chord: Chord | undefined,
  key: Key,
): GripDescription {
  const sounding = chord?.kind === "chord" ? chord : undefined;
  const notes = gripNotes(grip, setup).map((note) => described(note, sounding, key));
  const names = notes.map((note) => note.name).join(" ");
  const degrees = notes.flatMap((note) => note.degree ?? []).join(" ");
  const parts = [printGrip(grip), pretty(names), pretty(degrees)];
  const inversion = inversionOf(notes);
  const rootless = sounding !== undefined && !notes.some((note) => note.degree === "1");
  const spacing = sounding && spacingOf(grip, setup, sounding);
  const form = sounding && formOf(grip, setup, sounding);
  const called = [
    ...(spacing ? [spacingWords(spacing)] : []),
    ...(rootless ? ["rootless"] : inversion ? [inversion] : []),
    ...(form ? [formWords(form)] : []),
  ];
  return {
    notes,
    stringSet: notes.map((note) => note.string).join("-"),
    inversion,
    rootless,
    spacing,
    form,
    names: called.join(", "),
    text: parts.filter((part) => part !== "").join(", "),
  };
}

function described(note: GripNote, chord: SoundingChord | undefined, key: Key): DescribedNote {
  const heard = pitchClass(note.pitch);
  const tone = [...(chord?.tones ?? []), ...(chord?.tensions ?? [])].find(
    (each) => each.pitchClass === heard,
  );
  const foreign = chord === undefined ? undefined : foreignDegree(chord.rootClass, heard);
  // A slash bass outside the chord is spelled as the symbol has it.
  const other = chord?.bassClass === heard ? chord.bass : nameInKey(heard, key);
  return { ...note, name: tone?.name ?? other, degree: tone?.degree ?? foreign };
}

function inversionOf(notes: readonly DescribedNote[]): Inversion | undefined {
  const lowest = notes.reduce<DescribedNote | undefined>(
    (low, note) => (low === undefined || note.pitch < low.pitch ? note : low),
    undefined,
  );
  return inversions[lowest?.degree?.replace(/^[b#]+/, "") ?? ""];
}
