/** Who played a take, over which bars, and how long ago. */
import type { BarId } from "@halflap/board/board";
import type { Take } from "@halflap/board/take";
import { whenWords } from "../../door/when-words.ts";
import type { Session } from "../../session/session.ts";
import { takeWords } from "../../words/takes.ts";
import { barWithSection, chartEnds } from "../bar-names.ts";

type Room = Pick<Session, "board">;

/** Whose it is. */
export function takePlayer({ board }: Room, take: Take): string {
  return board.members.find(({ id }) => id === take.from)?.name ?? takeWords.someone;
}

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

/** "5 minutes ago". */
export function takeAge({ at }: Take): string {
  return whenWords(new Date(at), new Date());
}
