/** A board with its lanes swapped: who plays what, and who sings. */
import type { Board, LaneId } from "@halflap/board/board";

/** The other lane. */
export function otherLane(lane: LaneId): LaneId {
  return lane === "upper" ? "lower" : "upper";
}

/** The same music with the lanes the other way round. */
export function mirrored(original: Board): Board {
  const { upper, lower } = original.lanes;
  const voices = original.voices.map((voice) => ({
    ...voice,
    lane: voice.lane === undefined ? undefined : otherLane(voice.lane),
  }));
  return {
    ...original,
    voices,
    lanes: { upper: { ...lower, id: "upper" }, lower: { ...upper, id: "lower" } },
  };
}
