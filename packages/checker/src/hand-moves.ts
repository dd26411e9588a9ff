/** How the fretting hand gets from one hold to the next, over bar lines and seams. */
import type { LaneId, SlotId } from "@halflap/board/board";
import type { Setup } from "@halflap/theory/tuning";
import { type Ticks, ticks } from "@halflap/theory/units";
import { isSamePassage, sameBars } from "./bar-by-bar.ts";
import { type Hold, holdsOf } from "./holds.ts";
import type { Segment } from "./segments.ts";
import type { CheckedBar } from "./tune.ts";

export type HandMove = {
  readonly from: Hold;
  readonly to: Hold;
  /** The bar in which the next hold is struck. */
  readonly bar: CheckedBar;
  /** Whether that bar lies in the passage of the first. */
  readonly isWithin: boolean;
  /** When the old hold is struck last and the new one first, from the start of the old bar. */
  readonly start: Ticks;
  readonly end: Ticks;
};

type Remembered = {
  readonly ahead: readonly CheckedBar[];
  readonly upper: readonly HandMove[];
  readonly lower: readonly HandMove[];
};

const known = new WeakMap<CheckedBar, Remembered>();

/**
 * The moves of a lane that begin in a bar: between its holds, and from its last to the first of
 * each bar ahead. A bar without an attack gives the hand all the time it needs.
 */
export function movesFrom(
  bar: CheckedBar,
  ahead: readonly CheckedBar[],
  lane: LaneId,
  setups: Readonly<Record<LaneId, Setup>>,
): readonly HandMove[] {
  if (ahead.length === 0) return moves(bar, ahead, lane, setups[lane]);
  const last = known.get(bar);
  if (last !== undefined && sameBars(last.ahead, ahead)) return last[lane];
  const made = (each: LaneId) => moves(bar, ahead, each, setups[each]);
  const next = { ahead, upper: made("upper"), lower: made("lower") };
  known.set(bar, next);
  return next[lane];
}

/** A slot, and whether it lies in the passage of the bar from which it is reached. */
export type HeldPlace = { readonly segment: Segment; readonly isWithin: boolean };

/** The slots of a move's holds: a push at the end of a bar sounds the grip of the one ahead. */
export function placesOf(
  move: HandMove,
  bar: CheckedBar,
  ahead: readonly CheckedBar[],
): { readonly from: HeldPlace | undefined; readonly to: HeldPlace | undefined } {
  const placed = (slot: SlotId): HeldPlace | undefined => {
    for (const one of [bar, ...ahead]) {
      const segment = one.segments.find((each) => each.slot.id === slot);
      const isWithin = one === bar || isSamePassage(bar, one);
      if (segment !== undefined) return { segment, isWithin };
    }
    return undefined;
  };
  const from = placed(move.from.slot);
  const { isWithin } = move;
  if (isWithin && move.bar === bar) return { from, to: placed(move.to.slot) };
  const reached = move.bar.segments.find(({ slot }) => slot.id === move.to.slot);
  return { from, to: reached && { segment: reached, isWithin } };
}

/** Whether a lane goes from the grip of one slot straight to that of another. */
export function isLinked(moves: readonly HandMove[], from: Segment, to: Segment): boolean {
  return moves.some(
    (move) =>
      move.from.kind === "grip" &&
      move.to.kind === "grip" &&
      move.from.slot === from.slot.id &&
      move.to.slot === to.slot.id,
  );
}

function moves(
  bar: CheckedBar,
  ahead: readonly CheckedBar[],
  lane: LaneId,
  setup: Setup,
): readonly HandMove[] {
  const holds = holdsOf(bar.played.lanes[lane], setup);
  const inside = holds.flatMap((to, index): readonly HandMove[] => {
    const from = holds[index - 1];
    if (from === undefined) return [];
    return [{ from, to, bar, isWithin: true, start: from.last, end: to.first }];
  });
  const from = holds.at(-1);
  if (from === undefined) return inside;
  const onward = ahead.flatMap((next): readonly HandMove[] => {
    const to = holdsOf(next.played.lanes[lane], setup)[0];
    if (to === undefined) return [];
    const end = ticks(bar.played.bar.length + to.first);
    const isWithin = isSamePassage(bar, next);
    return [{ from, to, bar: next, isWithin, start: from.last, end }];
  });
  return [...inside, ...onward];
}
