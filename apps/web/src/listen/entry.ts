/** Where and how the playing begins, and how it goes on after something was changed. */
import type { BarId, Board } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import { countInMax } from "@halflap/sound/performance";
import type { Timeline } from "@halflap/timeline/timeline";
import { type BarOfPlay, indexOfBar, type Once, sameMoment, stretchOf } from "./order-of-play.ts";
import { momentAt, type Plan, runningStart, sampleAt } from "./play-clock.ts";
import type { Wishes } from "./player-messages.ts";

/** What is played and how: the whole of it, what goes round, or bars heard once. */
export type Aim = Omit<Wishes, "loop"> & {
  readonly loop: Wishes["loop"] | Once;
  /** Where in its bar it begins; 0 but for a slot heard on its own. */
  readonly into: number;
};

/** The tune as it is played now. */
export type Tune = {
  readonly board: Board;
  readonly timeline: Timeline;
  readonly bars: readonly BarOfPlay[];
};

/** A plan and where it is taken up. */
export type Entry = {
  readonly plan: Plan;
  /** The bar at the anchor. */
  readonly index: number;
  /** Bars counted in before the anchor. */
  readonly counted: number;
  /** Nothing before this sample is changed. */
  readonly cut: number;
};

/** From a bar, or from the start of what goes round; undefined where there is nothing to play. */
export function beginning(
  { board, bars }: Tune,
  bar: BarId | undefined,
  wishes: Aim,
  time: { readonly cut: number; readonly sampleRate: number },
): Entry | undefined {
  const asked = indexOfBar(bars, bar, 0);
  const stretch = stretchOf(bars, wishes.loop, asked ?? 0);
  if (stretch === undefined) return undefined;
  const isInside = asked !== undefined && asked >= stretch.first && asked <= stretch.last;
  const index = isInside ? asked : stretch.first;
  const first = bars[index];
  if (first === undefined) return undefined;
  const counted = wishes.countsIn ? Math.min(countInMax, Math.max(1, board.countIn)) : 0;
  const samplesPerTick = samplesPerTickOf(board, wishes, time.sampleRate);
  const sample = Math.round(time.cut + counted * first.length * samplesPerTick);
  const anchor = { sample, tick: first.start + wishes.into, samplesPerTick };
  return { plan: { bars, stretch, anchor }, index, counted, cut: time.cut };
}

/**
 * The same moment goes on in what is played now; where that lies outside of what goes round, the
 * bar is played to its end first. "over" when only strings ring on; undefined when nothing is left
 * to play.
 */
export function goingOn(
  { board, bars }: Tune,
  before: Pick<Entry, "plan" | "counted">,
  wishes: Aim,
  time: { readonly cut: number; readonly sampleRate: number },
): Entry | "over" | undefined {
  const { plan } = before;
  const { cut } = time;
  const leads = cut < plan.anchor.sample;
  const moment = momentAt(plan, Math.max(cut, plan.anchor.sample));
  if (moment === undefined) return "over";
  const index = sameMoment(bars, plan.bars[moment.index], moment.index);
  const stretch = stretchOf(bars, wishes.loop, index);
  const [bar, target] = [bars[index], stretch && bars[stretch.first]];
  if (!stretch || !bar || !target) return undefined;
  const samplesPerTick = samplesPerTickOf(board, wishes, time.sampleRate);
  if (index < stretch.first || index > stretch.last) {
    const { length } = plan.bars[moment.index] ?? bar;
    const end = sampleAt(plan.anchor, runningStart(plan, moment) + length);
    const sample = leads ? plan.anchor.sample : end;
    const anchor = { sample, tick: target.start, samplesPerTick };
    // What was ordered for the bar line goes too, where rounding put it a sample sooner.
    const cut = sample - 1;
    return { plan: { bars, stretch, anchor }, index: stretch.first, counted: 0, cut };
  }
  if (!leads) {
    const tick = bar.start + Math.min(moment.into, bar.length);
    const anchor = { sample: cut, tick, samplesPerTick };
    return { plan: { bars, stretch, anchor }, index, counted: 0, cut };
  }
  // What is left of the count-in goes as fast as what follows it.
  const { counted } = before;
  const stretched = counted > 0 ? samplesPerTick / plan.anchor.samplesPerTick : 1;
  const sample = Math.round(cut + (plan.anchor.sample - cut) * stretched);
  const anchor = { sample, tick: bar.start, samplesPerTick };
  return { plan: { bars, stretch, anchor }, index, counted, cut: counted > 0 ? cut : sample };
}

/** How many samples a tick lasts. */
export function samplesPerTickOf(
  board: Board,
  { tempoFactor }: Pick<Aim, "tempoFactor">,
  sampleRate: number,
): number {
  return (sampleRate * 60) / (board.tempo * tempoFactor) / beatOf(board.meter);
}
