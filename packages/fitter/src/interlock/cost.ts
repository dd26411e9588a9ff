/** How well a pattern serves: what is weighed, in one table with its reasons. */
import { ticksPerQuarter } from "@halflap/theory/units";
import type { Ground } from "./ground.ts";
import { type Measures, measuresOf, rhythmIn } from "./measures.ts";
import { differentBeats, type GridRhythm, placesOf } from "./rhythms.ts";

/** A cost for each unit of what is measured; all weights are ours. */
const weights = {
  /** For all strokes in common: two guitars on the same strokes are one. R19. */
  shared: 3,
  /** For all of the thinner part under the other, counted above half: it is merely covered. R19. */
  doubled: 3,
  /** For no eighth filled: holes of both at once are where a groove sags. R19. */
  open: 2,
  /** For strokes all in one place: uneven ones are harder to keep up. */
  uneven: 1,
  /** For each step of syncopation away from the section's, up to the most. */
  syncopation: 0.08,
  syncopationMost: 0.8,
  /** For twice or half as many strokes as wanted. */
  density: 0.6,
  /** For strokes on sixteenths or triplets where neither lane has any: that is another feel. */
  otherGrid: 1.5,
  /** For each beat that is not like another: what has one idea is remembered. */
  variety: 0.15,
  /** For each stroke a beat above one under the own voice, which keeps the simple beat. R28. */
  busySinging: 2,
} as const;

/** What the section asks of a pattern besides locking. */
export type Wanted = {
  /** undefined = no pattern there yet, so any. */
  readonly syncopation: number | undefined;
  /** Strokes a beat. */
  readonly density: number;
  /** The steps on which the section moves: eighths, and what finer ones a lane strikes now. */
  readonly grids: readonly number[];
};

const eighth = ticksPerQuarter / 2;
const finerGrids = [ticksPerQuarter / 4, ticksPerQuarter / 3];

/** Strokes in this share of the sixteenths are dense, as R21 counts. */
const denseShare = 3 / 4;

/** Where nothing says how full, three of four eighths at most: a hand that never rests tires. */
const fullestFirst = 3 / 4;

/**
 * The feel of the section: the syncopation and density of what the lane strums now; where that is
 * dense, or nothing, what the other lane leaves of an eighth each. While its player sings a lane
 * keeps the simple beat.
 */
export function wantedIn(ground: Ground): Wanted {
  const { bars, beat, cycle, present } = ground;
  const sings = bars.some(({ sung }) => sung.length > 0);
  const now = present === undefined ? undefined : measuresOf(present, ground);
  const isPlayed = now !== undefined && now.density > 0;
  const all = bars.reduce((sum, { count }) => sum + count, 0);
  const theirs = bars.reduce((sum, { other, count }) => sum + count * other.length, 0) / all;
  const most = beat / eighth;
  const left = Math.min(fullestFirst * most, most - (theirs * beat) / cycle);
  const isDense = isPlayed && now.density >= denseShare * 2 * most;
  const density = isPlayed && !isDense ? now.density : left;
  const places = [
    ...bars.flatMap(({ other }) => other.map(({ at }) => at)),
    ...(present === undefined ? [] : rhythmIn(present, ground).onsets),
  ];
  return {
    syncopation: sings ? 0 : isPlayed ? now.syncopation : undefined,
    density: Math.min(most, Math.max(most / 4, sings ? Math.min(1, density) : density)),
    grids: [eighth, ...finerGrids.filter((step) => places.some((at) => isOnlyOn(at, step)))],
  };
}

/** What a rhythm costs: less is better. */
export function costOf(rhythm: GridRhythm, measures: Measures, wanted: Wanted): number {
  const { shared, doubled, covered, evenness, syncopation, density, sungDensity } = measures;
  const away = Math.abs(syncopation - (wanted.syncopation ?? syncopation));
  const places = placesOf(rhythm);
  const isAtHome = wanted.grids.some((step) => places.every((at) => at % step === 0));
  return (
    weights.shared * shared +
    weights.doubled * Math.max(0, doubled - 1 / 2) +
    weights.open * (1 - covered) +
    weights.uneven * (1 - evenness) +
    Math.min(weights.syncopationMost, weights.syncopation * away) +
    weights.density * Math.abs(Math.log2(density / wanted.density)) +
    (isAtHome ? 0 : weights.otherGrid) +
    weights.variety * (differentBeats(rhythm) - 1) +
    weights.busySinging * Math.max(0, sungDensity - 1)
  );
}

/** Whether a place lies on a finer grid and on no eighth. */
function isOnlyOn(at: number, step: number): boolean {
  return at % step === 0 && at % eighth !== 0;
}
