/**
 * How the tune lies in the audio's time: one anchor from which every moment is worked out on its
 * own. Nothing is added up, so nothing drifts.
 */
import type { BarInOrder, BarOfPlay, Stretch } from "./order-of-play.ts";

/** At this sample the tune stands at this tick, and runs this fast. */
export type Anchor = {
  readonly sample: number;
  readonly tick: number;
  readonly samplesPerTick: number;
};

/** What is being played, and when. */
export type Plan = {
  readonly bars: readonly BarOfPlay[];
  readonly stretch: Stretch;
  readonly anchor: Anchor;
};

/** The same, where nobody asks what the hands do. */
export type Outline = Omit<Plan, "bars"> & { readonly bars: readonly BarInOrder[] };

/** Which bar sounds, for the how-manieth time since the anchor, and how far into it. */
export type Moment = { readonly index: number; readonly round: number; readonly into: number };

/** The tick at a sample, as if the tune went on for ever: rounds are not folded back. */
export function tickAt({ sample, tick, samplesPerTick }: Anchor, at: number): number {
  return tick + (at - sample) / samplesPerTick;
}

/** The sample at a tick, the nearest whole one. */
export function sampleAt({ sample, tick, samplesPerTick }: Anchor, at: number): number {
  return Math.round(sample + (at - tick) * samplesPerTick);
}

/** Where a stretch starts and ends in ticks; undefined when its bars are gone. */
export function spanOf(
  bars: readonly BarInOrder[],
  { first, last }: Stretch,
): { readonly from: number; readonly to: number } | undefined {
  const [start, end] = [bars[first], bars[last]];
  return start && end && { from: start.start, to: end.start + end.length };
}

/** What sounds at a sample; undefined before the anchor and after the end. */
export function momentAt(plan: Outline, sample: number): Moment | undefined {
  const { bars, stretch, anchor } = plan;
  const span = spanOf(bars, stretch);
  if (span === undefined || sample < anchor.sample) return undefined;
  const running = tickAt(anchor, sample);
  const round = stretch.loops ? Math.floor((running - span.from) / (span.to - span.from)) : 0;
  const tick = running - round * (span.to - span.from);
  for (let index = stretch.last; index >= stretch.first; index -= 1) {
    const bar = bars[index];
    if (bar === undefined || tick < bar.start) continue;
    const into = tick - bar.start;
    return into < bar.length ? { index, round, into } : undefined;
  }
  return undefined;
}

/** The tick of a moment's bar, counted on through the rounds. */
export function runningStart(plan: Outline, { index, round }: Omit<Moment, "into">): number {
  const span = spanOf(plan.bars, plan.stretch);
  return (plan.bars[index]?.start ?? 0) + round * (span ? span.to - span.from : 0);
}
