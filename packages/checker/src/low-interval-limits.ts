/** How low an interval may lie before it turns to mud: two published tables. */
import { type MidiNote, midiNote, type Semitones } from "@halflap/theory/units";

/**
 * The lowest MIDI note that may carry an interval, by its size in semitones; octaves, and sizes
 * beyond a table, are free.
 */
type LowIntervalTable = ReadonlyMap<number, MidiNote>;

/** By the number that the limit `mudTable` chooses: 1 strict, 2 usual. */
const tables: ReadonlyMap<number, LowIntervalTable> = new Map([
  // A retailer's glossary, "Low Interval Limit", sweetwater.com/insync; printed with middle C as
  // C3, here an octave up.
  [1, tableOf([52, 51, 48, 47, 45, 35, 37, 41, 41, 41, 41])],
  // The college table as an open-source theory library has it; one of two encodings known to us.
  [2, tableOf([52, 51, 48, 46, 46, 46, 34, 43, 41, 41, 41, undefined, 40, 39, 36, 34])],
]);

/**
 * How many semitones the lower note of an interval lies below its limit; 0 or less = clear enough,
 * undefined = free at any height.
 */
export function lowIntervalDeficit(
  table: number,
  lower: number,
  interval: Semitones,
): number | undefined {
  const limit = tables.get(Math.round(table))?.get(interval);
  return limit === undefined ? undefined : limit - lower;
}

/** The limits of a semitone, a whole tone, and so on up. */
function tableOf(limits: readonly (number | undefined)[]): LowIntervalTable {
  return new Map(
    limits.flatMap((limit, index) =>
      limit === undefined ? [] : [[index + 1, midiNote(limit)] as const],
    ),
  );
}
