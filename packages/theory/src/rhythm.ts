/** Rhythms as sets of onsets on a cycle, and what two of them make together. SPEC.md T40. */
import { assert, type Ticks, ticks } from "./units.ts";

/** Where strokes begin in a cycle that repeats, mostly a bar. */
export type Rhythm = {
  /** How long until it begins again; more than 0. */
  readonly cycle: Ticks;
  /** Ascending, each once, from 0 to before the cycle's end. */
  readonly onsets: readonly Ticks[];
};

/**
 * The rhythm of these onsets, in any order; doubles count once. An onset outside the cycle is a
 * bug.
 */
export function rhythmOf(cycle: Ticks, onsets: readonly Ticks[]): Rhythm {
  assert(cycle > 0, "a rhythm has a length");
  for (const onset of onsets) {
    // Named only then: words for each onset would cost more than the rest.
    if (onset >= cycle) assert(false, `onset ${onset} is outside a cycle of ${cycle}`);
  }
  if (isAscending(onsets)) return { cycle, onsets };
  return { cycle, onsets: [...new Set(onsets)].sort((one, other) => one - other) };
}

/** Each greater than the one before, as what is played mostly comes. */
function isAscending(onsets: readonly Ticks[]): boolean {
  for (let index = 1; index < onsets.length; index += 1) {
    if ((onsets[index] ?? 0) <= (onsets[index - 1] ?? 0)) return false;
  }
  return true;
}

/** The rhythm of equal steps, of which some are struck; without any step is a bug. */
export function rhythmOfSteps(struck: readonly boolean[], step: Ticks): Rhythm {
  const onsets = struck.flatMap((isStruck, index) => (isStruck ? [ticks(index * step)] : []));
  return rhythmOf(ticks(struck.length * step), onsets);
}

/** From each onset to the next, the last one round to the first; empty without onsets. */
export function intervalsOf(rhythm: Rhythm): readonly Ticks[] {
  const { cycle, onsets } = rhythm;
  const [first] = onsets;
  return onsets.map((onset, index) => ticks((onsets[index + 1] ?? cycle + (first ?? 0)) - onset));
}

/** How many onsets both have. */
export function sharedOnsets({ onsets: one }: Rhythm, { onsets: other }: Rhythm): number {
  let shared = 0;
  let at = 0;
  for (const onset of one) {
    while ((other[at] ?? Number.POSITIVE_INFINITY) < onset) at += 1;
    if (other[at] === onset) shared += 1;
  }
  return shared;
}

/**
 * How much of all that is struck both strike together: |A ∩ B| / |A ∪ B| (Jaccard 1901), 0 when
 * they interlock, 1 when they are the same; undefined when neither strikes. Both have one cycle.
 */
export function overlapOf(one: Rhythm, other: Rhythm): number | undefined {
  assert(one.cycle === other.cycle, "rhythms of one length only");
  const shared = sharedOnsets(one, other);
  const all = one.onsets.length + other.onsets.length - shared;
  return all === 0 ? undefined : shared / all;
}

/** What is heard when both play. Both have one cycle. */
export function together(one: Rhythm, other: Rhythm): Rhythm {
  assert(one.cycle === other.cycle, "rhythms of one length only");
  return rhythmOf(one.cycle, [...one.onsets, ...other.onsets]);
}

/**
 * The share of a grid's slots in which something begins, 0 to 1. A slot reaches up to the next;
 * the last may be shorter.
 */
export function coverageOf(rhythm: Rhythm, slot: Ticks): number {
  assert(slot > 0, "a slot has a length");
  let filled = 0;
  let last = -1;
  for (const onset of rhythm.onsets) {
    const filledNow = Math.floor(onset / slot);
    if (filledNow > last) filled += 1;
    last = filledNow;
  }
  return filled / Math.ceil(rhythm.cycle / slot);
}
