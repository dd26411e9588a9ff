/** A note in this browser that takes of a board wait to be sent, read when the board is opened. */
import type { BoardId } from "@halflap/wire/api";

const nameOf = (board: BoardId) => `halflap-takes-wait-${board}`;

/** Whether there may be some; the takes themselves are looked for later. */
export function doTakesWait(board: BoardId): boolean {
  try {
    return localStorage.getItem(nameOf(board)) !== null;
  } catch {
    return false; // a browser that stores nothing has kept none
  }
}

/** Writes it down. */
export function noteWaiting(board: BoardId, waits: boolean): void {
  try {
    if (waits) localStorage.setItem(nameOf(board), "1");
    else localStorage.removeItem(nameOf(board));
  } catch {
    // Then they wait as long as the page is open.
  }
}
