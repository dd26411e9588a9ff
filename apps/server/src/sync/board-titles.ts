/**
 * Titles of boards, read beside the thread that serves and remembered while nothing newer is
 * stored.
 */
import type { BoardId } from "@halflap/wire/api";
import type { DocumentKey, RowId, UpdateLog } from "../store/log-port.ts";
import { updatesOf } from "./document-reader.ts";
import { type Folding, Unreadable } from "./folding-port.ts";
import { quarantineMs, SetAside } from "./quarantine.ts";
import type { Rooms } from "./rooms.ts";

export type BoardTitlesPorts = {
  readonly log: Pick<UpdateLog, "newest">;
  readonly rooms: Pick<Rooms, "look">;
  readonly folding: Pick<Folding, "title">;
  /** Milliseconds that never go back. */
  readonly clock: () => number;
  /** Told when a title can't be read, but for a document that is set aside. */
  readonly onFault: (fault: unknown) => void;
};

/** A title as it stood at a row, and until when it is not read again whatever is stored. */
type Known = { readonly row: RowId; readonly title: string; readonly until: number };

/** Boards remembered at once; the one asked for longest ago makes room. */
const rememberedMax = 1000;

/** How long a list of boards waits for a title; the reading goes on, for the next list. */
export const titleWaitMs = 3_000;

/** One for the process: it reads one board at a time, and holds the bytes of one. */
export class BoardTitles {
  private readonly known = new Map<BoardId, Known>();
  private readonly underway = new Map<BoardId, Promise<Known | undefined>>();
  private turn: Promise<unknown> = Promise.resolve();
  private readonly ports: BoardTitlesPorts;

  constructor(ports: BoardTitlesPorts) {
    this.ports = ports;
  }

  /**
   * A board's title and when it was last edited, in milliseconds since 1970. No title for a board
   * that can't be read, and the last one known, if any, while reading it takes long: the others
   * are to be listed all the same.
   */
  async read(board: BoardId): Promise<{ readonly title: string; readonly editedAt: number }> {
    const { row, boardEditedAt } = await this.ports.log.newest({ board, document: "board" });
    const title = await inTime(this.titleAt(board, row));
    return { title: title ?? this.known.get(board)?.title ?? "", editedAt: boardEditedAt };
  }

  /** The title at a row or a later one; whoever asks meanwhile waits for the same reading. */
  private async titleAt(board: BoardId, row: RowId): Promise<string> {
    const known = this.known.get(board);
    if (known !== undefined && (known.row >= row || this.ports.clock() < known.until)) {
      this.remember(board, known);
      return known.title;
    }
    const underway = this.underway.get(board);
    const read = await (underway ?? this.begin(board));
    if (read === undefined) return "";
    return underway === undefined || read.row >= row ? read.title : this.titleAt(board, row);
  }

  private begin(board: BoardId): Promise<Known | undefined> {
    const reading = this.turn.then(() => this.readNow({ board, document: "board" }));
    this.turn = reading;
    this.underway.set(board, reading);
    return reading;
  }

  private async readNow(key: DocumentKey): Promise<Known | undefined> {
    const { rooms, folding, clock, onFault } = this.ports;
    const { board } = key;
    let row: RowId | undefined;
    try {
      const { stored } = await rooms.look(key);
      row = stored.head;
      const title = await folding.title(updatesOf(stored.rows));
      return this.remember(board, { row, title, until: 0 });
    } catch (fault) {
      if (!(fault instanceof SetAside)) onFault(fault);
      if (!(fault instanceof Unreadable) || row === undefined) return undefined;
      // It costs as much at each try.
      return this.remember(board, { row, title: "", until: clock() + quarantineMs });
    } finally {
      this.underway.delete(board);
    }
  }

  private remember(board: BoardId, known: Known): Known {
    this.known.delete(board);
    this.known.set(board, known);
    const [oldest] = this.known.keys();
    if (this.known.size > rememberedMax && oldest !== undefined) this.known.delete(oldest);
    return known;
  }
}

async function inTime(title: Promise<string>): Promise<string | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(resolve, titleWaitMs, undefined);
  });
  try {
    return await Promise.race([title, late]);
  } finally {
    clearTimeout(timer);
  }
}
