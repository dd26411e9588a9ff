/** The id that a bar's strip carries in the page. */
import type { BarId, LaneId } from "@halflap/board/board";

/** By it the panel finds the strip that it lies open on. */
export function stripId(lane: LaneId, bar: BarId): string {
  return `playing-${lane}-${bar}`;
}
