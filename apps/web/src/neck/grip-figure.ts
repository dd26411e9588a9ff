/**
 * What a small grip diagram shows: a window of the neck, stopped strings as pegs, open and silent
 * strings.
 */
import { type Grip, gripNotes, type StringNumber } from "@halflap/theory/grip";
import { neckFret, type Setup } from "@halflap/theory/tuning";
import type { MidiNote } from "@halflap/theory/units";

/** A sounding string; column 0 = open, 1 = the first space shown. */
export type Peg = {
  readonly string: StringNumber;
  readonly column: number;
  readonly pitch: MidiNote;
};

export type GripFigure = {
  readonly pegs: readonly Peg[];
  /** Spaces between frets that are shown, at least four. */
  readonly columns: number;
  /** Spaces between the nut (or capo) and the window; 0 = the window begins there. */
  readonly skipped: number;
  /** The fret of the first column as the lane counts it; undefined where the nut or capo shows. */
  readonly label: number | undefined;
};

const columnsMin = 4;

/** Strings from the top of the drawing down, as in tab. */
export const stringsDown: readonly StringNumber[] = [1, 2, 3, 4, 5, 6];

/** The figure of a grip on a lane's guitar; strings without a peg are silent. */
export function gripFigure(grip: Grip, setup: Setup): GripFigure {
  const notes = gripNotes(grip, setup).map((note) => ({
    ...note,
    space: (neckFret(setup, note.fret) ?? setup.capo) - setup.capo,
  }));
  const stopped = notes.filter((note) => note.space > 0);
  const lowest = Math.min(...stopped.map((note) => note.space));
  const highest = Math.max(columnsMin, ...stopped.map((note) => note.space));
  const skipped = highest <= columnsMin || stopped.length === 0 ? 0 : lowest - 1;
  return {
    pegs: notes.map((note) => ({
      string: note.string,
      column: note.space > 0 ? note.space - skipped : 0,
      pitch: note.pitch,
    })),
    columns: Math.max(columnsMin, highest - skipped),
    skipped,
    label: skipped > 0 ? stopped.find((note) => note.space === lowest)?.fret : undefined,
  };
}
