/** What strings do between two grips by themselves: wound ones squeak, open ones ring on. */
import type { SoundingChord } from "@halflap/theory/chord";
import type { GripNote } from "@halflap/theory/grip";
import { isOpen, type Setup, stringNumbers } from "@halflap/theory/tuning";
import { type PitchClass, pitchClass } from "@halflap/theory/units";
import type { HeldGrip } from "./held-grip.ts";
import { travelAt, type WayTable } from "./way-table.ts";

/** As R31 has it: the third string is plain in most electric sets. */
const lowestPlain = 3;

/** A question about the way from one grip to another, by their numbers in the lists. */
export type WayQuestion = (row: number, column: number) => boolean;

/** Whether the hand, where it travels, drags a finger along a wound string: R31. */
export function squeaking(table: WayTable, fretsMin: number): WayQuestion {
  const { from, to } = table;
  const wound = (list: typeof from) => list.grips.map((held) => woundFrets(held, list.setup));
  const [left, right] = [wound(from), wound(to)];
  return (row, column) => {
    if (travelAt(table, row, column) === 0) return false;
    const [one, other] = [left[row], right[column]];
    const way = Math.abs(lowestOf(from, row) - lowestOf(to, column));
    if (one === undefined || other === undefined || way < fretsMin) return false;
    return one.some((fret, string) => {
      const target = other[string];
      return fret !== undefined && target !== undefined && Math.abs(fret - target) >= fretsMin;
    });
  };
}

/**
 * Whether an open string that the next chord does not name rings on beside the next grip: R32, with
 * every colour taken as one that rubs. By the grip that is left; undefined where it has no such
 * string.
 */
export function ringing(
  { from, to }: WayTable,
  chord: SoundingChord,
): (row: number) => ((column: number) => boolean) | undefined {
  const named = new Set([...chord.tones.map((tone) => tone.pitchClass), chord.bassClass]);
  const loose = from.grips.map((held) =>
    stringBits(
      held.notes.filter((note) => isOpenOn(from.setup, note) && !named.has(classOf(note))),
    ),
  );
  const beside = to.grips.map(({ notes }) => {
    const strings = notes.map(({ string }) => string);
    return bitsBeside(Math.min(...strings), Math.max(...strings));
  });
  return (row) => {
    const strings = loose[row] ?? 0;
    return strings === 0 ? undefined : (column) => (strings & (beside[column] ?? 0)) !== 0;
  };
}

function isOpenOn(setup: Setup, { fret }: GripNote): boolean {
  return isOpen(setup, fret);
}

function classOf({ pitch }: GripNote): PitchClass {
  return pitchClass(pitch);
}

function stringBits(notes: readonly GripNote[]): number {
  return notes.reduce((bits, { string }) => bits | (1 << string), 0);
}

/** The strings outside those from `lowest` to `highest`. */
function bitsBeside(lowest: number, highest: number): number {
  return stringNumbers.reduce<number>(
    (bits, string) => (string < lowest || string > highest ? bits | (1 << string) : bits),
    0,
  );
}

/** The frets that fingers stop on wound strings, by string number. */
function woundFrets({ notes }: HeldGrip, setup: Setup): readonly (number | undefined)[] {
  const frets: (number | undefined)[] = [];
  for (const { string, fret } of notes) {
    if (string > lowestPlain && !isOpen(setup, fret)) frets[string] = fret;
  }
  return frets;
}

function lowestOf({ grips }: WayTable["from"], index: number): number {
  return grips[index]?.stopped?.lowest ?? 0;
}
