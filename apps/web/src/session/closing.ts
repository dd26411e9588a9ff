/**
 * How the server ends the lines of a board for good: because of who I am, or because the board was
 * restored from a backup. Then what this browser has of it belongs to a history that is over, and
 * stays as a copy; the next page opens the board as it is now.
 */
import { copyOf } from "@halflap/board/copy";
import { type BoardDocuments, documentNames } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import { type Accessor, createSignal } from "solid-js";
import { sessionWords } from "../words/session.ts";
import { knowBoard, knownBoard } from "./known-boards.ts";
import { isMembershipCode } from "./reach.ts";
import { keepRefusedCopy } from "./refused-copies.ts";
import { server } from "./server.ts";

export type Closing = {
  /** Why the lines were ended, in words; undefined while they are not. */
  readonly closed: Accessor<string | undefined>;
  /** The server ended a line, with one of `closeCode`. */
  onClosed(code: number): void;
};

/** Follows the lines of one board; `loaded` gives all that this browser kept of it. */
export function createClosing(id: BoardId, loaded: () => Promise<BoardDocuments>): Closing {
  const [closed, setClosed] = createSignal<string>();
  return {
    closed,
    onClosed(code) {
      const isFirst = closed() === undefined;
      setClosed(isMembershipCode(code) ? sessionWords.closedNotMember : sessionWords.closedOther);
      if (!isFirst || code !== closeCode.otherEpoch) return;
      void loaded().then((documents) => leaveHistory(id, documents));
    },
  };
}

/** Asks for the history that the board has now; where there is no answer the next page asks. */
async function leaveHistory(id: BoardId, documents: BoardDocuments): Promise<void> {
  const answer = await server.board(id);
  const known = knownBoard(id);
  if (!answer.ok || known === undefined) return;
  const hasWork = documentNames.some((name) => documents[name].store.clients.size > 0);
  const copy = { words: sessionWords.restored, copy: copyOf(documents) };
  // Without room for the copy the old history stays the one that opens, and can still be taken.
  if (hasWork && !keepRefusedCopy(id, copy)) return;
  knowBoard({ ...known, me: answer.value.me, epoch: answer.value.epoch });
}
