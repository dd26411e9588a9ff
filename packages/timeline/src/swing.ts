/** Where a written place is heard when the off-beats are swung. */
import type { Board } from "@halflap/board/board";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";

/** Swung eighths share a beat two to one, as first and last of a triplet: common practice. */
const long = (ticksPerQuarter * 2) / 3;
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
 * quarter is stretched to two thirds, the second takes the rest.
 */
export function swung(at: Ticks): Ticks {
  if (at % swungGrid !== 0) return at;
  const within = at % ticksPerQuarter;
  const moved =
    within <= half
      ? (within * long) / half
      : long + ((within - half) * (ticksPerQuarter - long)) / half;
  return ticks(at - within + Math.round(moved));
}
