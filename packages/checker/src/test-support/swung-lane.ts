/** Lanes of test boards whose patterns are played with a feel of their own. */
import type { Lane, LaneId } from "@halflap/board/board";
import type { Strum } from "@halflap/board/playing";

/** The lane, as the one or the other, with all its patterns in a feel. */
export function laneInFeel(lane: Lane, id: LaneId, feel: Strum["feel"]): Lane {
  const strums = [...lane.strums].map(([key, strum]) => [key, { ...strum, feel }] as const);
  return { ...lane, id, strums: new Map(strums) };
}
