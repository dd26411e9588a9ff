/** Who played a take, and how long ago. */
import type { Take } from "@halflap/board/take";
import { whenWords } from "../../door/when-words.ts";
import type { Session } from "../../session/session.ts";
import { takeSignWords } from "../../words/take-sign.ts";

/** Where those are named who play. */
export type Room = Pick<Session, "board">;

/** Whose it is. */
export function takePlayer({ board }: Room, take: Take): string {
  return board.members.find(({ id }) => id === take.from)?.name ?? takeSignWords.someone;
}

/** "5 minutes ago". */
export function takeAge({ at }: Take): string {
  return whenWords(new Date(at), new Date());
}
