/** What a pattern makes with the other lane over all bars of its section, in numbers. */
import type { Strum } from "@halflap/board/playing";
import { evennessOf } from "@halflap/theory/evenness";
import { type Rhythm, rhythmOf } from "@halflap/theory/rhythm";
import { type MetricalTree, metricalTree, syncopationOf } from "@halflap/theory/syncopation";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import { type Ground, type GroundBar, isWithin, type Struck, strokesIn } from "./ground.ts";

export type Measures = {
  /** Strokes of both at once, of all strokes of either (Jaccard): 0..1. */
  readonly shared: number;
  /** Strokes of both at once, of those of the part with fewer: 0..1. */
  readonly doubled: number;
  /** Eighths in which something begins, of all: 0..1. */
  readonly covered: number;
  /** 1 for strokes equally far apart (Block & Douthett 1994), less for others. */
  readonly evenness: number;
  /** Longuet-Higgins & Lee 1984. */
  readonly syncopation: number;
  /** Strokes a beat. */
  readonly density: number;
  /** Strokes a quarter note while the lane's own player sings; 0 where nobody does. */
  readonly sungDensity: number;
};

type Pattern = Pick<Strum, "step" | "steps">;

const eighth = ticks(ticksPerQuarter / 2);

/** The measures of a pattern on its ground; shares are over all bars together. */
export function measuresOf(pattern: Pattern, ground: Ground): Measures {
  const rhythm = rhythmIn(pattern, ground);
  const struckIn = new Map<Ticks, readonly Struck[]>();
  let [both, either, fewer, filled, eighths, sung, sungLength] = [0, 0, 0, 0, 0, 0, 0];
  for (const groundBar of ground.bars) {
    const { bar, count } = groundBar;
    const { isSwung } = ground;
    const struck =
      struckIn.get(bar.length) ?? strokesIn(bar.length, pattern, { isSwung, fills: [] });
    struckIn.set(bar.length, struck);
    const counts = countsIn(groundBar, struck);
    both += count * counts.both;
    either += count * (counts.own + counts.other - counts.both);
    fewer += count * Math.min(counts.own, counts.other);
    filled += count * counts.filled;
    eighths += count * Math.ceil(bar.length / eighth);
    sung += count * counts.sung;
    sungLength += count * lengthUnder(groundBar);
  }
  return {
    shared: share(both, either),
    doubled: share(both, fewer),
    covered: share(filled, eighths),
    evenness: evennessOf(rhythm) ?? 1,
    syncopation: syncopationIn(rhythm, ground),
    density: (rhythm.onsets.length * ground.beat) / ground.cycle,
    sungDensity: share(sung * ticksPerQuarter, sungLength),
  };
}

/** Strokes of the pattern and of the other lane outside all fills, those at once, and the rest. */
function countsIn(groundBar: GroundBar, struck: readonly Struck[]) {
  const { other, filled, ownFills, otherFills, sung } = groundBar;
  const counts = { own: 0, other: other.length, both: 0, filled: 0, sung: 0 };
  const eighths = new Set(filled.map(eighthOf));
  for (const one of struck) {
    if (isWithin(ownFills, one.at)) continue;
    eighths.add(eighthOf(one.at));
    if (isWithin(sung, one.at)) counts.sung += 1;
    if (isWithin(otherFills, one.at)) continue;
    counts.own += 1;
    if (other.some((each) => isAtOnce(one, each))) counts.both += 1;
  }
  counts.filled = eighths.size;
  return counts;
}

function eighthOf(at: Ticks): number {
  return Math.floor(at / eighth);
}

/** The strokes of a pattern in a bar of the section, as written. */
export function rhythmIn(pattern: Pattern, { cycle }: Ground): Rhythm {
  const struck = strokesIn(cycle, pattern, { isSwung: false, fills: [] });
  return rhythmOf(
    cycle,
    struck.map(({ at }) => at),
  );
}

/** Whether two strokes fall together, on paper or for the ear: swung and straight are no answer. */
function isAtOnce(one: Struck, other: Struck): boolean {
  return one.at === other.at || one.sounds === other.sounds;
}

/** The syncopation in the meter of the bar; beats in thirds where strokes lie on triplets. */
function syncopationIn(rhythm: Rhythm, { meter }: Ground): number {
  const tree = metricalTree(meter);
  return syncopationOf(rhythm, tree) ?? syncopationOf(rhythm, inThirds(tree, meter.unit)) ?? 0;
}

/** The same meter with each beat in thirds. */
function inThirds({ cycle, divisions }: MetricalTree, unit: number): MetricalTree {
  const halvings = Math.log2(16 / unit);
  return { cycle, divisions: [...divisions.slice(0, divisions.length - halvings), 3, 2] };
}

/** How much of a bar is sung; phrases of one voice do not overlap. */
function lengthUnder({ bar, sung }: GroundBar): Ticks {
  const parts = sung.map(({ start, end }) => Math.min(end, bar.length) - Math.max(start, 0));
  return ticks(parts.reduce((sum, part) => sum + part, 0));
}

function share(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
