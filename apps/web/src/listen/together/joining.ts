/** How the conductor takes up what is played together: at once, at a bar line, or from a moment. */
import { type Entry, samplesPerTickOf, type Tune } from "../entry.ts";
import { momentAt, type Plan, runningStart, sampleAt, spanOf, tickAt } from "../play-clock.ts";
import { hasSameBars } from "./course.ts";
import type { Meeting } from "./meeting.ts";
import { barAfter, indexAt, stretchAt } from "./shared-place.ts";

/** Seconds that can be put right at a bar line without anybody hearing it. */
const smallSeconds = 0.04;
/** Seconds before a bar line within which what was ordered for it may lie. */
const guardSeconds = 0.01;

/**
 * Where a meeting is taken up. What plays already (`before`) is left alone up to the moment that a
 * new meeting names, or to the next bar line when only little has to be put right. "over" when
 * nothing is left to do; undefined when there is nothing to play.
 */
export function joining(
  tune: Tune,
  meeting: Meeting,
  before: { readonly plan: Plan; readonly isSameMeeting: boolean } | undefined,
  time: { readonly cut: number; readonly sampleRate: number },
): Entry | "over" | undefined {
  const { bars } = tune;
  const stretch = stretchAt(bars, meeting.loop, meeting.tick);
  if (stretch === undefined) return undefined;
  const samplesPerTick = samplesPerTickOf(tune.board, meeting, time.sampleRate);
  const anchor = { sample: meeting.sample, tick: meeting.tick, samplesPerTick };
  const plan = { bars, stretch, anchor };
  if (time.cut < anchor.sample) return ahead(plan, meeting, before, time);
  const moment = momentAt(plan, time.cut);
  if (moment === undefined) return "over";
  const entry = { plan: anchoredAt(plan, moment), index: moment.index, counted: 0, cut: time.cut };
  const shift = before && shiftFrom(before.plan, plan, time.cut);
  const isSmall = shift !== undefined && Math.abs(shift) <= smallSeconds * time.sampleRate;
  if (before === undefined || before.isSameMeeting || !isSmall) return entry;
  const next = barAfter(moment, stretch);
  if (next === undefined) return "over";
  const line = sampleAt(anchor, runningStart(plan, next));
  // What was ordered for the bar that comes goes too, where it would have come a little sooner.
  return { ...entry, cut: Math.floor(Math.min(line, line + shift)) - 1 };
}

/** Whether a tune's bars still come as they do in a plan. */
export function isTimedAs(plan: Plan, tune: Tune, meeting: Meeting, sampleRate: number): boolean {
  const samplesPerTick = samplesPerTickOf(tune.board, meeting, sampleRate);
  return samplesPerTick === plan.anchor.samplesPerTick && hasSameBars(plan.bars, tune.bars);
}

/** The moment is still to come: it is counted in, or what plays goes on until then. */
function ahead(
  plan: Plan,
  { counted }: Meeting,
  before: { readonly plan: Plan } | undefined,
  { cut, sampleRate }: { readonly cut: number; readonly sampleRate: number },
): Entry {
  const sample = Math.round(plan.anchor.sample);
  const line = sample - Math.round(guardSeconds * sampleRate);
  const waits = before !== undefined && counted === 0;
  return {
    plan: { ...plan, anchor: { ...plan.anchor, sample } },
    index: indexAt(plan.bars, plan.anchor.tick),
    counted,
    cut: waits ? Math.max(cut, line) : cut,
  };
}

/** The same plan, told from the start of the bar that sounds. */
function anchoredAt(plan: Plan, moment: { readonly index: number; readonly round: number }): Plan {
  const sample = sampleAt(plan.anchor, runningStart(plan, moment));
  const tick = plan.bars[moment.index]?.start ?? plan.anchor.tick;
  return { ...plan, anchor: { ...plan.anchor, sample, tick } };
}

/**
 * By how many samples a plan is ahead of another at a sample, rounds folded; undefined when they
 * don't play the same.
 */
function shiftFrom(before: Plan, plan: Plan, cut: number): number | undefined {
  const { stretch, anchor } = plan;
  const span = spanOf(plan.bars, stretch);
  const isSame =
    before.stretch.first === stretch.first &&
    before.stretch.last === stretch.last &&
    before.stretch.loops === stretch.loops &&
    before.anchor.samplesPerTick === anchor.samplesPerTick &&
    hasSameBars(before.bars, plan.bars);
  if (!isSame || span === undefined || cut < before.anchor.sample) return undefined;
  const ticksAhead = tickAt(anchor, cut) - tickAt(before.anchor, cut);
  const round = stretch.loops ? span.to - span.from : Number.POSITIVE_INFINITY;
  return folded(ticksAhead, round) * anchor.samplesPerTick;
}

/** Rounds apart are none. */
function folded(ticksAhead: number, round: number): number {
  if (!Number.isFinite(round)) return ticksAhead;
  return ticksAhead - Math.round(ticksAhead / round) * round;
}
