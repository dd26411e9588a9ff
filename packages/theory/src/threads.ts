/**
 * Voice threads: which note of one grip goes to which note of the next, with the least motion
 * there is.
 */
import type { Grip } from "./grip.ts";
import { fretPosition, handFret } from "./hand.ts";
import type { Setup } from "./tuning.ts";
import {
  type MidiNote,
  type Millimetres,
  millimetres,
  type Semitones,
  semitones,
} from "./units.ts";

/** One voice on its way; motion is signed, up is positive, 0 = held. */
export type Thread = {
  readonly from: MidiNote;
  readonly to: MidiNote;
  readonly motion: Semitones;
};

/** All voices between two grips. */
export type Threads = {
  /** The summed size of all motions. */
  readonly total: Semitones;
  /** How many voices stay where they are. */
  readonly held: number;
  /** The size of the largest motion. */
  readonly largest: Semitones;
  /** Lowest first. A voice that splits or is joined by another comes in several. */
  readonly pairs: readonly Thread[];
};

const wholeStep = 2;

/**
 * The pairing of smallest total motion (taxicab size; Tymoczko, Science 313, 2006). With equally
 * many pitches each has one partner; otherwise each of the larger side has one and none of the
 * smaller is left out, so that voices split or merge. Nothing moves from or to silence. Exact,
 * for pitches in any order.
 */
export function threadsBetween(from: readonly MidiNote[], to: readonly MidiNote[]): Threads {
  const lower = ascending(from);
  const upper = ascending(to);
  const hasSplit = lower.length < upper.length;
  const pairs = hasSplit
    ? paired(upper, lower, (one, other) => thread(other, one))
    : paired(lower, upper, thread);
  let total = 0;
  let held = 0;
  let largest = 0;
  for (const { motion } of pairs) {
    const size = Math.abs(motion);
    total += size;
    if (size === 0) held++;
    if (size > largest) largest = size;
  }
  return { total: semitones(total), held, largest: semitones(largest), pairs };
}

/** The voices that leap: by more than a whole step, which is the largest motion by step. */
export function leapsOf(threads: Threads): readonly Thread[] {
  return threads.pairs.filter((pair) => Math.abs(pair.motion) > wholeStep);
}

/** Where the voices go together: "both" ways, or "nowhere" when all are held or none sounds. */
export function directionOf(threads: Threads): "up" | "down" | "both" | "nowhere" {
  const goesUp = threads.pairs.some((pair) => pair.motion > 0);
  const goesDown = threads.pairs.some((pair) => pair.motion < 0);
  if (goesUp) return goesDown ? "both" : "up";
  return goesDown ? "down" : "nowhere";
}

/** How far the first finger travels along the neck; 0 when one of the grips stops no string. */
export function handShift(from: Grip, to: Grip, setup: Setup): Millimetres {
  const start = handFret(from, setup);
  const end = handFret(to, setup);
  if (start === undefined || end === undefined) return millimetres(0);
  return millimetres(Math.abs(fretPosition(setup, end) - fretPosition(setup, start)));
}

function ascending(pitches: readonly MidiNote[]): readonly MidiNote[] {
  const isAscending = pitches.every((pitch, place) => pitch >= (pitches[place - 1] ?? pitch));
  return isAscending ? pitches : [...pitches].sort((one, other) => one - other);
}

function thread(from: MidiNote, to: MidiNote): Thread {
  return { from, to, motion: semitones(to - from) };
}

/**
 * Each of the many with one of the few, all of the few taken. Both ascend, and crossing threads
 * never makes motion smaller on a line, so the cheapest pairing is found by walking both from
 * below: for each of the many the partner stays or goes one up. Equally many go in order.
 */
function paired(
  many: readonly MidiNote[],
  few: readonly MidiNote[],
  threaded: (one: MidiNote, other: MidiNote) => Thread,
): readonly Thread[] {
  if (few.length === 0) return [];
  const costs = few.length === many.length ? undefined : costsOf(many, few);
  const pairs: Thread[] = [];
  let place = few.length - 1;
  for (let index = many.length - 1; index >= 0; index--) {
    const pitch = many[index];
    const partner = few[place];
    if (pitch === undefined || partner === undefined) break;
    pairs.push(threaded(pitch, partner));
    if (place === 0) continue;
    const before = (index - 1) * few.length + place;
    if (costs === undefined || at(costs, before - 1) <= at(costs, before)) place--;
  }
  return pairs.reverse();
}

/** The least motion of the first many up to each, when it goes to each of the few: row by row. */
function costsOf(many: readonly MidiNote[], few: readonly MidiNote[]): readonly number[] {
  const costs: number[] = [];
  for (const [index, pitch] of many.entries()) {
    for (const [place, partner] of few.entries()) {
      const before = (index - 1) * few.length + place;
      const stay = index === 0 ? unreachable : at(costs, before);
      const goUp = index === 0 || place === 0 ? unreachable : at(costs, before - 1);
      const isFirst = index === 0 && place === 0;
      costs.push(Math.abs(pitch - partner) + (isFirst ? 0 : Math.min(stay, goUp)));
    }
  }
  return costs;
}

const unreachable = Number.POSITIVE_INFINITY;

function at(costs: readonly number[], place: number): number {
  return costs[place] ?? unreachable;
}
