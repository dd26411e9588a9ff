/** The ground for a new pattern: the bars it would play in, and all that sounds there anyway. */
import type { Bar, BarId, Board, Meter } from "@halflap/board/board";
import { beatOf, meterOfBar } from "@halflap/board/meter";
import type { Strum } from "@halflap/board/playing";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import { timelineOf } from "@halflap/timeline/passages";
import { isSwung, swungTogether } from "@halflap/timeline/swing";
import type { Attack, FigureSpan, LaneBar, Passage, PlayedBar } from "@halflap/timeline/timeline";
import { freeId, otherLane, type Place, withPattern } from "./trial.ts";

/** A stroke's place as written and as heard, from the start of its bar. */
export type Struck = { readonly at: Ticks; readonly sounds: Ticks };

/** A bar in which the pattern would play, once for each way its section is played. */
export type GroundBar = {
  readonly bar: Bar;
  /** How many bars are just like it; they are measured as one. */
  readonly count: number;
  /** What the other lane strikes, fills of either lane left out. */
  readonly other: readonly Struck[];
  /** Where something begins without the pattern: the other lane's attacks, the lane's own fill. */
  readonly filled: readonly Ticks[];
  /** The fills and lines of the lane itself: there the pattern is silent. */
  readonly ownFills: readonly FigureSpan[];
  /** Those of the other lane: there nothing is compared. */
  readonly otherFills: readonly FigureSpan[];
  /** Where the lane's own player sings. */
  readonly sung: readonly { readonly start: number; readonly end: number }[];
};

export type Ground = {
  /** Never empty; all that differ. */
  readonly bars: readonly GroundBar[];
  /** The ids of all of them. */
  readonly barIds: ReadonlySet<BarId>;
  /** The length that most of the bars have; a pattern is as long. */
  readonly cycle: Ticks;
  /** In which such a bar is written, and its beat. */
  readonly meter: Meter;
  readonly beat: Ticks;
  /** Whether a beat falls into three. */
  readonly isInThrees: boolean;
  /** What the lane strums there now. */
  readonly present: Strum | undefined;
  /** Whether the other lane has a pattern in some of the bars. */
  readonly isOtherStrummed: boolean;
  readonly feel: Strum["feel"];
  readonly isSwung: boolean;
  /** Bars that some passes play with another pattern. */
  readonly mixed: ReadonlySet<BarId>;
};

/**
 * The ground of a section for a lane; undefined when a pattern set for the section plays in none of
 * its bars, because they rest or have patterns of their own.
 */
export function groundOf(board: Board, place: Place): Ground | undefined {
  const { strums, strumming } = board.lanes[place.lane];
  const probe = freeId(strums);
  const passages = timelineOf(withPattern(board, place, silent)).passages.filter(
    ({ section }) => section.id === place.section,
  );
  const all = passages.flatMap((passage) => passage.bars.map((played) => ({ passage, played })));
  const isOurs = ({ played }: { readonly played: PlayedBar }) => {
    const own = played.lanes[place.lane];
    return own.strum?.id === probe && !own.rests;
  };
  const ours = all.filter(isOurs);
  const cycle = commonLength(ours.map(({ played }) => played.bar.length));
  if (cycle === undefined) return undefined;
  const meter = meterOfBar(cycle, board.meter);
  const beat = beatOf(meter);
  const set = strumming.sections.get(place.section) ?? strumming.lane;
  const present = set === undefined ? undefined : strums.get(set);
  const others = ours.map(({ played }) => played.lanes[otherLane(place.lane)]);
  const theirs = others.find(({ strum }) => strum !== undefined)?.strum;
  const feel = present?.feel ?? theirs?.feel ?? "board";
  return {
    bars: joined(ours.map(({ passage, played }) => barOf(board, place, passage, played))),
    barIds: new Set(ours.map(({ played }) => played.bar.id)),
    ...{ cycle, meter, beat, present, feel },
    isInThrees: beat > (4 * ticksPerQuarter) / meter.unit,
    isOtherStrummed: theirs !== undefined,
    isSwung: isSwung(board, feel),
    mixed: new Set(all.filter((each) => !isOurs(each)).map(({ played }) => played.bar.id)),
  };
}

/** The strokes of a pattern in a bar, its fills left out; ghosts are felt, not heard. */
export function strokesIn(
  length: Ticks,
  { step, steps }: Pick<Strum, "step" | "steps">,
  { isSwung, fills }: { readonly isSwung: boolean; readonly fills: readonly FigureSpan[] },
): readonly Struck[] {
  if (steps.length === 0) return [];
  const played = Array.from({ length: Math.ceil(length / step) }, (_, index) => ({
    at: ticks(index * step),
    each: steps[index % steps.length],
  })).filter(({ at, each }) => each?.kind !== "rest" && !isWithin(fills, at));
  const places = played.map(({ at }) => at);
  const hear = isSwung ? swungTogether(places, length) : ticks;
  return played.flatMap(({ at, each }) =>
    each?.kind === "stroke" && each.weight !== "ghost" ? [{ at, sounds: hear(at) }] : [],
  );
}

/** Whether a place lies in one of these spans. */
export function isWithin(
  spans: readonly { readonly start: number; readonly end: number }[],
  at: number,
): boolean {
  return spans.some(({ start, end }) => at >= start && at < end);
}

const silent: Omit<Strum, "id"> = {
  name: "",
  step: ticks(ticksPerQuarter),
  feel: "board",
  palmMute: false,
  steps: [{ kind: "rest" }],
};

function barOf(
  board: Board,
  { lane }: Place,
  passage: Passage,
  { bar, start, lanes }: PlayedBar,
): GroundBar {
  const [own, other] = [lanes[lane], lanes[otherLane(lane)]];
  const struck = struckBy(board, other);
  const fills = [...own.figures, ...other.figures];
  const sung = passage.sung
    .filter((each) => each.voice?.lane === lane)
    .filter((each) => each.start < start + bar.length && each.end > start)
    .map((each) => ({ start: each.start - start, end: each.end - start }));
  return {
    bar,
    count: 1,
    other: struck
      .filter(({ at }) => !isWithin(fills, at))
      .map(({ at, sounds }) => ({ at, sounds })),
    filled: [...struck, ...notesOf(other), ...notesOf(own)].map(({ at }) => at),
    ownFills: own.figures,
    otherFills: other.figures,
    sung,
  };
}

/** Bars in which all is alike, as one. */
function joined(bars: readonly GroundBar[]): readonly GroundBar[] {
  const known = new Map<string, GroundBar>();
  for (const each of bars) {
    const { bar, other, filled, ownFills, otherFills, sung } = each;
    const spans = [ownFills, otherFills, sung].map((list) =>
      list.map(({ start, end }) => `${start}-${end}`),
    );
    const struck = other.map(({ at, sounds }) => `${at}-${sounds}`);
    const key = JSON.stringify([bar.length, struck, filled, ...spans]);
    const before = known.get(key);
    known.set(key, before === undefined ? each : { ...before, count: before.count + 1 });
  }
  return [...known.values()];
}

/** What a lane strums in a bar; where no grip is chosen yet, what its hand would do. */
function struckBy(board: Board, laneBar: LaneBar): readonly Struck[] {
  const { bar, rests, grips, changes, strum, figures } = laneBar;
  if (rests) return [];
  if (grips.some((grip) => grip !== undefined)) {
    return laneBar.attacks.filter((attack) => attack.kind === "stroke" && isSounded(attack));
  }
  if (strum !== undefined) {
    return strokesIn(bar.length, strum, { isSwung: isSwung(board, strum.feel), fills: figures });
  }
  return bar.slots
    .map(({ start }, index) => ({ at: start, sounds: changes[index] ?? start }))
    .filter(({ at }) => !isWithin(figures, at));
}

function notesOf(laneBar: LaneBar): readonly Struck[] {
  return laneBar.attacks.filter((attack) => attack.kind === "note" && isSounded(attack));
}

function isSounded({ notes }: Attack): boolean {
  return notes.length > 0;
}

/** The most frequent length, of equals the first. */
function commonLength(lengths: readonly Ticks[]): Ticks | undefined {
  const count = (length: Ticks) => lengths.filter((each) => each === length).length;
  return [...new Set(lengths)].sort((a, b) => count(b) - count(a))[0];
}
