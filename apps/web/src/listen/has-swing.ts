/** Whether anything on a board swings. */
import { type Board, laneIds } from "@halflap/board/board";
import { isSwung } from "@halflap/timeline/swing";

/** By the board's own feel, or by that of a pattern in one of the lanes. */
export function hasSwing(board: Pick<Board, "feel" | "meter" | "lanes">): boolean {
  const feels = laneIds.flatMap((lane) =>
    [...board.lanes[lane].strums.values()].map(({ feel }) => feel),
  );
  return [...feels, "board" as const].some((feel) => isSwung(board, feel));
}
