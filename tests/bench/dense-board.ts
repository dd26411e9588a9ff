/** A board on which as much happens as can: both lanes strum sixteenths and fill all the time. */
import type { BoardCopy, LaneCopy } from "@halflap/board/copy";
import { fullBoard } from "../support/full-board.ts";

const beat = 48;
const sixteenths = { name: "all", step: 12, feel: "board", palmMute: false } as const;

/** `bars` bars in sections of eight, both lanes full, a fill in every fourth bar of each lane. */
export function denseBoard(bars: number): BoardCopy {
  const board = fullBoard(bars);
  const ids = board.sections.flatMap((section) => section.bars.map(({ id }) => id));
  return {
    ...board,
    lanes: {
      upper: busy(board.lanes.upper, ids, 1),
      lower: busy(board.lanes.lower, ids, 3),
    },
  };
}

/** Fills stand in another bar of four in each lane. */
function busy(lane: LaneCopy, bars: readonly string[], place: number): LaneCopy {
  const filled = bars.filter((_, index) => index % 4 === place);
  const notes = [0, 1, 2, 3].map((index) => ({
    ...{ start: (index * beat) / 2, length: beat / 2, string: 2, fret: 8 + index },
    ...({ way: "pluck", bend: 0, letRing: false } as const),
  }));
  const fill = { start: 2 * beat, length: 2 * beat, kind: "fill", together: false, notes } as const;
  return {
    ...lane,
    strums: { all: { ...sixteenths, steps: "DU".repeat(8) } },
    strumLane: "all",
    fills: Object.fromEntries(filled.map((bar) => [`fill-${bar}`, { ...fill, bar }])),
  };
}
