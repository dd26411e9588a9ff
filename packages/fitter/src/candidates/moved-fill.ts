/** A fill under another capo, each of its notes at the pitch that it has. */
import type { Fill, FillNote } from "@halflap/board/playing";
import {
  openPitch,
  pitchAt,
  type Setup,
  type StringNumber,
  stringNumbers,
  typedFret,
} from "@halflap/theory/tuning";
import { fret, type MidiNote } from "@halflap/theory/units";

/** The fill as it is played over the capo, and what of it can't be. */
export type MovedFill = {
  readonly fill: Fill;
  /** The pitches of notes that no string has free, which are left as they are written. */
  readonly lost: readonly MidiNote[];
};

/**
 * The fill on its strings where they still have its notes, else on the nearest string that has
 * them and is free meanwhile.
 */
export function movedFill(fill: Fill, from: Setup, to: Setup): MovedFill {
  const placed = fill.notes.map((note) => onString(note, note.string, from, to));
  for (const [index, note] of fill.notes.entries()) {
    placed[index] ??= stringNumbers
      .flatMap((string) => onString(note, string, from, to) ?? [])
      .sort((one, other) => one.fret - other.fret)
      .find((place) => !placed.some((other) => other !== undefined && isInWay(other, place)));
  }
  return {
    fill: { ...fill, notes: fill.notes.map((note, index) => placed[index] ?? note) },
    lost: fill.notes.flatMap((note, index) =>
      placed[index] === undefined ? (pitchAt(from, note.string, note.fret) ?? []) : [],
    ),
  };
}

/** The note as the string has it over the capo; undefined behind the capo or beyond the neck. */
function onString(
  note: FillNote,
  string: StringNumber,
  from: Setup,
  to: Setup,
): FillNote | undefined {
  const pitch = pitchAt(from, note.string, note.fret);
  if (pitch === undefined) return undefined;
  const place = pitch - openPitch(to.tuning, string);
  if (place < to.capo || place > to.lastFret) return undefined;
  return { ...note, string, fret: typedFret(to, fret(place)) };
}

/** Two notes on one string at one time. */
function isInWay(one: FillNote, other: FillNote): boolean {
  return (
    one.string === other.string &&
    one.start < other.start + other.length &&
    other.start < one.start + one.length
  );
}
