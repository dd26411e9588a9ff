/** Where a written place is heard when the off-beats are swung. */
import type { Board } from "@halflap/board/board";
import { assert, type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";

/**
 * How long the first half of a swung quarter lasts. Bands do it otherwise at each tempo: from about
 * 3 to 1 in slow tunes down to even in very fast ones, the short note staying near a tenth of a
 * second (Friberg & Sundstrom, Music Perception 19, 2002; from memory).
 */
export type Swing = Ticks;

/** Two to one, as first and last of a triplet: common practice. */
export const usualSwing: Swing = ticks((ticksPerQuarter * 2) / 3);
/** Even. */
export const swingMin: Swing = ticks(ticksPerQuarter / 2);
/** Three to one. */
export const swingMax: Swing = ticks((ticksPerQuarter * 3) / 4);

const half = ticksPerQuarter / 2;

/** The finest written place that swings: sixteenths. Triplets are heard as they are written. */
const swungGrid = ticksPerQuarter / 4;

/** Whether the board's feel swings its eighths: with quarters or halves as beats only. */
export function isSwung(
  board: Pick<Board, "feel" | "meter">,
  feel: "board" | "straight" | "swing",
) {
  if (board.meter.unit > 4) return false;
  return feel === "swing" || (feel === "board" && board.feel !== "straight");
}

/**
 * The place heard for a written one, both from the start of the bar. The first half of each
 * quarter is stretched as far as the swing says, the second takes the rest; eighths lie there to
 * the tick, sixteenths to the nearest one.
 */
export function swung(at: number, swing: Swing = usualSwing): Ticks {
  assert(swing >= swingMin && swing <= swingMax, "not a swing", swing);
  if (at % swungGrid !== 0) return ticks(at);
  const within = at % ticksPerQuarter;
  const moved =
    within <= half
      ? (within * swing) / half
      : swing + ((within - half) * (ticksPerQuarter - swing)) / half;
  return ticks(at - within + Math.round(moved));
}

/** Where a place of a bar is heard, both from the start of the bar. */
export type Hearing = (at: number) => Ticks;

/**
 * How all that stands in a swung bar is heard beside each other. Where swing would bring a place to
 * or past the next one, or the end of the bar, the whole quarter is played as written.
 */
export function swungTogether(
  places: readonly number[],
  length: Ticks,
  swing: Swing = usualSwing,
): Hearing {
  const quarterOf = (at: number) => Math.floor(at / ticksPerQuarter);
  const inside = places.filter((at) => at < length);
  const inOrder = [...new Set(inside)].sort((a, b) => a - b);
  const asWritten = new Set<number>();
  for (const [index, at] of inOrder.entries()) {
    const next = inOrder[index + 1];
    const end = next === undefined ? length : swung(next, swing);
    if (swung(at, swing) >= end) asWritten.add(quarterOf(at));
  }
  return (at) => (at >= length || asWritten.has(quarterOf(at)) ? ticks(at) : swung(at, swing));
}
