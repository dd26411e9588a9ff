/** Who played a take, over which bars, and how long ago, in one line. */
import type { BarId } from "@halflap/board/board";
import type { Take } from "@halflap/board/take";
import { takeWords } from "../../words/takes.ts";
import { barWithSection, chartEnds } from "../bar-names.ts";
import { type Room, takeAge, takePlayer } from "./take-line.ts";

/** "Ada, bars 5 to 8, 5 minutes ago". */
export function takeByLine(room: Room, take: Take): string {
  const ends = chartEnds(
    room.board,
    take.bars.map(({ bar }) => bar),
  );
  const numberOf = (bar: BarId | undefined) => barWithSection(room.board, bar)?.bar.number;
  const where = takeWords.where(numberOf(ends?.from), numberOf(ends?.to));
  return takeWords.byLine(takePlayer(room, take), where, takeAge(take));
}
