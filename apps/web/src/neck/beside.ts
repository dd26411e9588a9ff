/** How a grip would sit beside the other lane's notes: what it shares, rubs against and covers. */
import type { MidiNote } from "@halflap/theory/units";

export type Beside = {
  /** Pitches that both would sound. */
  readonly shared: readonly MidiNote[];
  /** Pairs a semitone or a minor ninth apart: mine, then theirs. */
  readonly rubs: readonly (readonly [MidiNote, MidiNote])[];
  /** How much of the narrower register the other covers, 0..1. */
  readonly cover: number;
};

/** From here on two registers count as one place: half of the narrower one. */
const coverMax = 0.5;

/** The relation of two lists of ascending pitches; undefined when the other lane is silent. */
export function besideOf(
  mine: readonly MidiNote[],
  theirs: readonly MidiNote[],
): Beside | undefined {
  if (mine.length === 0 || theirs.length === 0) return undefined;
  return {
    shared: mine.filter((pitch) => theirs.includes(pitch)),
    rubs: mine.flatMap((pitch) =>
      theirs
        .filter((other) => [1, 13].includes(Math.abs(pitch - other)))
        .map((other) => [pitch, other] as const),
    ),
    cover: coverOf(mine, theirs),
  };
}

/** Whether two registers lie on one another. */
export function isCovered(beside: Beside): boolean {
  return beside.cover >= coverMax;
}

/** Whether nothing is shared, rubs or lies in the other's place. */
export function isClear(beside: Beside | undefined): boolean {
  if (!beside) return true;
  return beside.shared.length === 0 && beside.rubs.length === 0 && !isCovered(beside);
}

/** Overlap of the registers over the narrower one, which counts as a semitone at least. */
function coverOf(mine: readonly MidiNote[], theirs: readonly MidiNote[]): number {
  const [lowA, highA] = [mine[0] ?? 0, mine.at(-1) ?? 0];
  const [lowB, highB] = [theirs[0] ?? 0, theirs.at(-1) ?? 0];
  const overlap = Math.min(highA, highB) - Math.max(lowA, lowB);
  return Math.max(0, overlap) / Math.max(1, Math.min(highA - lowA, highB - lowB));
}
