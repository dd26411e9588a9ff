/** How evenly a rhythm spreads its onsets, and the rhythms that spread them best. SPEC.md T42. */
import { intervalsOf, type Rhythm } from "./rhythm.ts";
import { assert, type Ticks } from "./units.ts";

/**
 * The normalized pairwise variability index of the intervals from the first onset round: 0 for
 * equal ones, near 200 for the greatest contrast (Grabe & Low 2002; on rhythms Toussaint 2013).
 * The step from the last interval to the first does not count, so it depends on where the rhythm
 * begins. undefined below two onsets.
 */
export function variabilityOf(rhythm: Rhythm): number | undefined {
  const intervals = intervalsOf(rhythm);
  if (intervals.length < 2) return undefined;
  const contrasts = intervals.slice(1).map((interval, index) => {
    const before = intervals[index] ?? interval;
    return Math.abs(interval - before) / ((interval + before) / 2);
  });
  return (100 * contrasts.reduce((sum, contrast) => sum + contrast, 0)) / contrasts.length;
}

/**
 * The summed straight distances between onsets drawn on a circle, as a share of those in a regular
 * polygon, which has the most: 1 for equal intervals, wherever the rhythm begins (Block & Douthett
 * 1994; on rhythms Toussaint 2005). undefined below two onsets.
 */
export function evennessOf(rhythm: Rhythm): number | undefined {
  const { cycle, onsets } = rhythm;
  if (onsets.length < 2) return undefined;
  const regular = onsets.map((_, index) => index / onsets.length);
  return chords(onsets.map((onset) => onset / cycle)) / chords(regular);
}

/**
 * Whether no rhythm of as many onsets on this grid is more even: onsets equally many apart lie at
 * most one step further from each other in one place than in another (Clough & Douthett 1991).
 * Onsets off the grid make it false.
 */
export function isMaximallyEven(rhythm: Rhythm, step: Ticks): boolean {
  const intervals = intervalsOf(rhythm).map((interval) => interval / step);
  if (!intervals.every(Number.isInteger)) return false;
  return intervals.every((_, count) => {
    const spans = intervals.map((_, start) => {
      const round = [...intervals.slice(start), ...intervals.slice(0, start)];
      return round.slice(0, count).reduce((sum, interval) => sum + interval, 0);
    });
    return Math.max(...spans) - Math.min(...spans) <= 1;
  });
}

/**
 * So many onsets spread over so many steps as evenly as can be, beginning with an onset:
 * Bjorklund's way, which is Euclid's (Toussaint, The Euclidean Algorithm Generates Traditional
 * Musical Rhythms, 2005). The rests are shared out among the onsets, then what is left over among
 * those groups, until at most one group is left over. More onsets than steps, or no onset, is a
 * bug.
 */
export function euclideanSteps(onsets: number, steps: number): readonly boolean[] {
  assert(Number.isInteger(onsets) && Number.isInteger(steps), "whole onsets and steps");
  assert(onsets >= 1 && onsets <= steps, `${onsets} onsets do not fit ${steps} steps`);
  let groups: (readonly boolean[])[] = Array.from({ length: onsets }, () => [true]);
  let rest: (readonly boolean[])[] = Array.from({ length: steps - onsets }, () => [false]);
  do {
    const pairs = Math.min(groups.length, rest.length);
    if (pairs === 0) break;
    const joined = groups.slice(0, pairs).map((group, index) => [...group, ...(rest[index] ?? [])]);
    rest = groups.length > pairs ? groups.slice(pairs) : rest.slice(pairs);
    groups = joined;
  } while (rest.length > 1);
  return [...groups, ...rest].flat();
}

/** The summed lengths of all chords between points of the unit circle, given in turns. */
function chords(turns: readonly number[]): number {
  let sum = 0;
  for (const [index, turn] of turns.entries()) {
    for (const other of turns.slice(index + 1)) {
      sum += 2 * Math.abs(Math.sin(Math.PI * (other - turn)));
    }
  }
  return sum;
}
