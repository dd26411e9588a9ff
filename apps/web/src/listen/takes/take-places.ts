/**
 * Where a take sounds in what is played: wherever its bars come up in their order, whichever time
 * through, and in the middle where the playing begins or goes round in the middle of it.
 */
import type { Meter } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { TakeHead } from "@halflap/board/take";
import { type Plan, runningStart, sampleAt, spanOf, tickAt } from "../play-clock.ts";

/** A stretch of a recording as it sounds; all in samples of the player. */
export type TakePlace = {
  /** Where the recording's first moment would lie: tells one place from another. */
  readonly zero: number;
  readonly start: number;
  readonly end: number;
};

/** Bars that are played and are bars of the take: from which one of either, and how many. */
type Run = { readonly index: number; readonly bar: number; readonly count: number };

/** What was played a little ahead of the first beat belongs to the take. */
const leadSeconds = 0.12;
/** Two tempos that differ by less stay together for a minute. */
const tempoTolerance = 1e-5;

/** Beats a minute at which a plan is played. */
export function tempoOf({ anchor }: Plan, meter: Meter, sampleRate: number): number {
  return (sampleRate * 60) / (anchor.samplesPerTick * beatOf(meter));
}

/** Whether a take can sound at a tempo: it plays at its own and at no other. */
export function isAtTempo(take: Pick<TakeHead, "tempo">, tempo: number): boolean {
  return Math.abs(take.tempo / tempo - 1) < tempoTolerance;
}

/**
 * A function that tells where a take sounds between two samples of a plan. Nowhere at another
 * tempo than its own, and not in bars that have been changed in length since.
 */
export function takePlaces(
  plan: Plan,
  take: TakeHead,
  { meter, sampleRate }: { readonly meter: Meter; readonly sampleRate: number },
): (from: number, to: number) => readonly TakePlace[] {
  const runs = isAtTempo(take, tempoOf(plan, meter, sampleRate)) ? runsOf(plan, take) : [];
  return (from, to) =>
    roundsOf(plan, from, to).flatMap((round) =>
      runs.flatMap((run) => {
        const place = placeOf(plan, take, { ...run, round }, sampleRate);
        return place.end > Math.max(from, place.start) && place.start < to ? [place] : [];
      }),
    );
}

/** Each as long as the bars go on alike; of several places in the take the longest, the first. */
function runsOf({ bars, stretch }: Plan, take: TakeHead): readonly Run[] {
  const isSame = (index: number, bar: number) =>
    index <= stretch.last &&
    bars[index] !== undefined &&
    bars[index]?.bar === take.bars[bar]?.bar &&
    bars[index]?.length === take.bars[bar]?.length;
  const longest = (index: number): Run => {
    let best: Run = { index, bar: 0, count: 0 };
    for (const bar of take.bars.keys()) {
      let count = 0;
      while (isSame(index + count, bar + count)) count += 1;
      if (count > best.count) best = { index, bar, count };
    }
    return best;
  };
  const runs: Run[] = [];
  let index = stretch.first;
  while (index <= stretch.last) {
    const run = longest(index);
    if (run.count > 0) runs.push(run);
    index += Math.max(1, run.count);
  }
  return runs;
}

/** The rounds that may touch these samples. */
function roundsOf(plan: Plan, from: number, to: number): readonly number[] {
  const span = spanOf(plan.bars, plan.stretch);
  if (span === undefined || !plan.stretch.loops) return span === undefined ? [] : [0];
  const roundAt = (sample: number) =>
    Math.floor((tickAt(plan.anchor, sample) - span.from) / (span.to - span.from));
  const first = Math.max(0, roundAt(from) - 1);
  const count = Math.max(0, roundAt(to) + 1 - first) + 1;
  return Array.from({ length: count }, (_, i) => first + i);
}

function placeOf(
  plan: Plan,
  take: TakeHead,
  { index, bar, count, round }: Run & { readonly round: number },
  sampleRate: number,
): TakePlace {
  const { anchor } = plan;
  const seconds = (ticks: number) => (ticks * anchor.samplesPerTick) / sampleRate;
  const lengthOf = (bars: TakeHead["bars"]) => bars.reduce((sum, { length }) => sum + length, 0);
  const begins = sampleAt(anchor, runningStart(plan, { index, round }));
  const before = seconds(lengthOf(take.bars.slice(0, bar)));
  const zero = begins - (take.offsetMs / 1000 + before) * sampleRate;
  const lead = bar === 0 ? Math.min(leadSeconds, take.offsetMs / 1000) * sampleRate : 0;
  const played = lengthOf(take.bars.slice(bar, bar + count)) * anchor.samplesPerTick;
  const isToItsEnd = bar + count === take.bars.length;
  const end = isToItsEnd
    ? zero + ((take.offsetMs + take.lengthMs) / 1000) * sampleRate
    : begins + played;
  // A plan says nothing of what comes before its anchor.
  return { zero, start: Math.max(begins, anchor.sample) - lead, end };
}
