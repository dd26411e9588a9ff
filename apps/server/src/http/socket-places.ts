/**
 * Places for sockets: so many for the server and for each board, and so many messages a second for
 * all sockets of a board together, however many members they belong to.
 */
import type { BoardId } from "@halflap/wire/api";
import {
  messagesLetBeBurst,
  messagesLetBePerSecond,
  messagesPerBoardBurst,
  messagesPerBoardPerSecond,
  socketsPerBoardMax,
  socketsPerServerMax,
} from "@halflap/wire/limits";
import { TokenBucket } from "../sync/token-bucket.ts";

/** A socket's place until `leave` is called, once. */
export type Place = {
  /** Whether one more message is within the board's rate, or else within what is let be. */
  mayReceive(): boolean;
  leave(): void;
};

type Board = { sockets: number; readonly messages: TokenBucket };

/** One for the process. */
export class SocketPlaces {
  private readonly boards = new Map<BoardId, Board>();
  private sockets = 0;
  private readonly now: () => number;

  /** `now` in milliseconds. */
  constructor(now: () => number) {
    this.now = now;
  }

  /** A place on a board; undefined when the board, or the server, has none left. */
  take(id: BoardId): Place | undefined {
    const board = this.boards.get(id) ?? { sockets: 0, messages: boardBucket(this.now()) };
    if (this.sockets >= socketsPerServerMax || board.sockets >= socketsPerBoardMax)
      return undefined;
    this.boards.set(id, board);
    this.sockets += 1;
    board.sockets += 1;
    return new TakenPlace(this, id, board);
  }

  /** Whether one more message is within a board's rate, or within the socket's own. */
  mayReceive(board: Board, own: (now: number) => TokenBucket): boolean {
    const now = this.now();
    return board.messages.take(now) || own(now).take(now);
  }

  /** Gives a place back. */
  leave(id: BoardId, board: Board): void {
    this.sockets -= 1;
    board.sockets -= 1;
    if (board.sockets === 0) this.boards.delete(id);
  }
}

function boardBucket(now: number): TokenBucket {
  return new TokenBucket(messagesPerBoardPerSecond, messagesPerBoardBurst, now);
}

class TakenPlace implements Place {
  private readonly places: SocketPlaces;
  private readonly id: BoardId;
  private readonly board: Board;
  /** Of use only where a board is over its rate, and made then. */
  private letBe: TokenBucket | undefined;

  constructor(places: SocketPlaces, id: BoardId, board: Board) {
    this.places = places;
    this.id = id;
    this.board = board;
  }

  mayReceive(): boolean {
    return this.places.mayReceive(this.board, (now) => {
      this.letBe ??= new TokenBucket(messagesLetBePerSecond, messagesLetBeBurst, now);
      return this.letBe;
    });
  }

  leave(): void {
    this.places.leave(this.id, this.board);
  }
}
