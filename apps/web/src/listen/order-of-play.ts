/** The bars of a tune in the order in which they are heard, and which of them a wish means. */
import type { BarId, FormEntryId, LaneId, SectionId } from "@halflap/board/board";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { PlayedBar, Timeline } from "@halflap/timeline/timeline";

/** The n-th bar that the band comes to. */
export type BarInOrder = {
  readonly bar: BarId;
  readonly section: SectionId;
  readonly entry: FormEntryId;
  /** The round of its form entry, from 1. */
  readonly round: number;
  /** From the start of the tune, count-in left out. */
  readonly start: Ticks;
  readonly length: Ticks;
};

/** The same with what the hands do. */
export type BarOfPlay = BarInOrder & {
  /** When each lane strikes as heard, from the start of the bar, ascending. */
  readonly strokes: Readonly<Record<LaneId, readonly Ticks[]>>;
};

/** What goes round: one time through a section, or from one bar to another. */
export type Loop =
  | { readonly kind: "section"; readonly section: SectionId }
  | { readonly kind: "bars"; readonly from: BarId; readonly to: BarId };

/** Bars that are heard once, to try something. */
export type Once = { readonly kind: "once"; readonly from: BarId; readonly to: BarId };

/** The first and the last bar that are played, counted from 0, and whether they go round. */
export type Stretch = { readonly first: number; readonly last: number; readonly loops: boolean };

/** Every bar in the order of play. */
export function orderOfPlay(timeline: Timeline): readonly BarOfPlay[] {
  return timeline.passes.flatMap(({ passage, entry, round, start }) =>
    passage.bars.map((played) => ({
      bar: played.bar.id,
      section: passage.section.id,
      entry,
      round,
      start: ticks(start + played.start),
      length: played.bar.length,
      strokes: { upper: strokesOf(played, "upper"), lower: strokesOf(played, "lower") },
    })),
  );
}

function strokesOf(played: PlayedBar, lane: LaneId): readonly Ticks[] {
  const { rests, attacks } = played.lanes[lane];
  const heard = rests ? [] : attacks.filter(({ notes }) => notes.length > 0);
  return [...new Set(heard.map(({ sounds }) => sounds))].sort((a, b) => a - b);
}

/**
 * Which bars a wish means: of several times through, the one around `near`, else the next after it,
 * else the first. Without a wish the whole tune. undefined when the order of play has no such bars.
 */
export function stretchOf(
  bars: readonly BarInOrder[],
  loop: Loop | Once | undefined,
  near: number,
): Stretch | undefined {
  if (loop === undefined) {
    return bars.length > 0 ? { first: 0, last: bars.length - 1, loops: false } : undefined;
  }
  const all = loop.kind === "section" ? passesOf(bars, loop.section) : pairsOf(bars, loop);
  const best =
    all.find(({ first, last }) => first <= near && near <= last) ??
    all.find(({ first }) => first >= near) ??
    all[0];
  return best && { ...best, loops: loop.kind !== "once" };
}

type Ends = Pick<Stretch, "first" | "last">;

function passesOf(bars: readonly BarInOrder[], section: SectionId): readonly Ends[] {
  const passes: { first: number; last: number }[] = [];
  for (const [index, here] of bars.entries()) {
    if (here.section !== section) continue;
    const before = bars[index - 1];
    const pass = passes.at(-1);
    const goesOn = before?.entry === here.entry && before.round === here.round;
    if (goesOn && pass) pass.last = index;
    else passes.push({ first: index, last: index });
  }
  return passes;
}

function pairsOf(
  bars: readonly BarInOrder[],
  { from, to }: Once | Extract<Loop, { kind: "bars" }>,
): readonly Ends[] {
  return bars.flatMap(({ bar }, first) => {
    const last = bars.findIndex((each, index) => index >= first && each.bar === to);
    return bar === from && last >= 0 ? [{ first, last }] : [];
  });
}

/** Where a bar comes up: at or after `near`, else the first time; undefined when never. */
export function indexOfBar(
  bars: readonly BarInOrder[],
  bar: BarId | undefined,
  near: number,
): number | undefined {
  const after = bars.findIndex((each, index) => index >= near && each.bar === bar);
  const index = after >= 0 ? after : bars.findIndex((each) => each.bar === bar);
  return index < 0 ? undefined : index;
}

/**
 * The same moment of the tune after an edit: the same bar in the same time through, else what now
 * stands where it stood.
 */
export function sameMoment(
  bars: readonly BarInOrder[],
  was: BarInOrder | undefined,
  index: number,
): number {
  const same = bars.findIndex(
    ({ bar, entry, round }) => bar === was?.bar && entry === was.entry && round === was.round,
  );
  return same >= 0 ? same : Math.max(0, Math.min(index, bars.length - 1));
}
