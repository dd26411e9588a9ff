/** How much a rhythm plays against its meter, by three published measures. SPEC.md T41. */
import { intervalsOf, type Rhythm } from "./rhythm.ts";
import { assert, type Ticks, ticks, ticksPerQuarter } from "./units.ts";

/** Beats a bar, over the note value that is one beat: 4 = quarter. */
export type BeatCount = { readonly beats: number; readonly unit: 2 | 4 | 8 | 16 };

/** A bar as a tree: into how many equal parts each level divides those above, bar first. */
export type MetricalTree = { readonly cycle: Ticks; readonly divisions: readonly number[] };

/** The finest level: sixteenths. */
const leafTicks = ticksPerQuarter / 4;

/**
 * The tree of a meter down to sixteenths. The beats divide by their prime factors, twos first:
 * 4/4 in 2 · 2, 6/8 in 2 · 3, 5/4 in 5; then each beat by twos.
 */
export function metricalTree(meter: BeatCount): MetricalTree {
  assert(Number.isInteger(meter.beats) && meter.beats > 0, `not a count of beats: ${meter.beats}`);
  const unit = (4 * ticksPerQuarter) / meter.unit;
  const divisions = primeFactors(meter.beats);
  for (let part = unit; part > leafTicks; part /= 2) divisions.push(2);
  return { cycle: ticks(unit * meter.beats), divisions };
}

/**
 * The syncopation of Longuet-Higgins & Lee (Music Perception 1, 1984) over a rhythm that repeats,
 * by its tree formulation: a part of the bar in which nothing begins is a rest; each rest that
 * weighs more than the note before it adds the difference. A note or rest weighs less by one with
 * every level that it begins below the bar. 0 without syncopation; undefined when nothing is struck
 * or a note is off the tree.
 */
export function syncopationOf(rhythm: Rhythm, tree: MetricalTree): number | undefined {
  assert(rhythm.cycle === tree.cycle, "a rhythm as long as its bar");
  const events = eventsOf(rhythm, tree);
  if (events === undefined) return undefined;
  let note = events.filter((event) => event.isNote).at(-1);
  if (note === undefined) return undefined;
  let sum = 0;
  for (const event of events) {
    if (event.isNote) note = event;
    else sum += Math.max(0, note.level - event.level);
  }
  return sum;
}

/**
 * The weighted note-to-beat distance (Gómez, Melvin, Rappaport & Toussaint, Mathematical Measures
 * of Syncopation, 2005), each note lasting to the next: 0 on the beat; off it the inverse of the
 * distance to the nearest beat, in beats, and twice that when the note is held over the next beat
 * and ends before the one after. The mean over all notes; undefined without any.
 */
export function noteToBeatDistance(rhythm: Rhythm, beat: Ticks): number | undefined {
  assert(beat > 0 && rhythm.cycle % beat === 0, "a cycle of whole beats");
  if (rhythm.onsets.length === 0) return undefined;
  const lengths = intervalsOf(rhythm);
  const sum = rhythm.onsets.reduce((total, onset, index) => {
    const past = onset % beat;
    if (past === 0) return total;
    const end = past + (lengths[index] ?? 0);
    const isHeldOver = end > beat && end < 2 * beat;
    return total + ((isHeldOver ? 2 : 1) * beat) / Math.min(past, beat - past);
  }, 0);
  return sum / rhythm.onsets.length;
}

/**
 * How many onsets lie on steps that no even division of the cycle reaches: those whose number has
 * no factor in common with the number of steps (Toussaint, Mathematical Features for Recognizing
 * Preference, 2005). undefined when an onset is off the grid.
 */
export function offBeatnessOf(rhythm: Rhythm, step: Ticks): number | undefined {
  assert(step > 0 && rhythm.cycle % step === 0, "a cycle of whole steps");
  const steps = rhythm.cycle / step;
  const places = rhythm.onsets.map((onset) => onset / step);
  if (!places.every(Number.isInteger)) return undefined;
  return places.filter((place) => commonFactor(place, steps) === 1).length;
}

/** A note, or a part of the bar in which nothing begins; level 0 is the bar. */
type MetricalEvent = { readonly isNote: boolean; readonly level: number };

/** Left to right, each part no smaller than it must be; undefined when a note is off the tree. */
function eventsOf(rhythm: Rhythm, tree: MetricalTree): readonly MetricalEvent[] | undefined {
  const events: MetricalEvent[] = [];
  const isOnTree = divide(0, tree.cycle, 0, 0);
  return isOnTree ? events : undefined;

  /** `level` is that of the part's beginning, `depth` that of the part. */
  function divide(start: number, length: number, level: number, depth: number): boolean {
    const within = rhythm.onsets.filter((onset) => onset >= start && onset < start + length);
    if (within.every((onset) => onset === start)) {
      events.push({ isNote: within.length > 0, level });
      return true;
    }
    const parts = tree.divisions[depth];
    if (parts === undefined) return false;
    return Array.from({ length: parts }, (_, part) => part).every((part) => {
      const begins = part === 0 ? level : depth + 1;
      return divide(start + (part * length) / parts, length / parts, begins, depth + 1);
    });
  }
}

function primeFactors(number: number): number[] {
  for (let factor = 2; factor <= number; factor++) {
    if (number % factor === 0) return [factor, ...primeFactors(number / factor)];
  }
  return [];
}

function commonFactor(one: number, other: number): number {
  return other === 0 ? one : commonFactor(other, one % other);
}
