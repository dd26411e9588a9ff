/**
 * Titles of boards, read beside the thread that serves and remembered while nothing newer is
 * stored.
 */
import type { BoardId } from "@halflap/wire/api";
import type { DocumentKey, RowId, UpdateLog } from "../store/log-port.ts";
import { updatesOf } from "./document-reader.ts";
import { FewEach } from "./few-each.ts";
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

/** Who asks, and until when they wait. */
type Asking = { readonly asker: string; readonly signal: AbortSignal };

/** Boards remembered at once; the one asked for longest ago makes room. */
const rememberedMax = 1000;

/**
 * How long a list of boards waits for its titles, and reading one may take; those under way and few
 * behind them go on, for the next list.
 */
export const titleWaitMs = 3_000;

/** Titles that wait or are read for one asker at once, so that everybody else has a turn. */
export const titlesPerAskerMax = 2;

/** One for the process: it reads one board at a time, and holds the bytes of one. */
export class BoardTitles {
  private readonly known = new Map<BoardId, Known>();
  private readonly underway = new Map<BoardId, Promise<Known | undefined>>();
  private readonly places = new FewEach(titlesPerAskerMax);
  private turn: Promise<unknown> = Promise.resolve();
  private readonly ports: BoardTitlesPorts;

  constructor(ports: BoardTitlesPorts) {
    this.ports = ports;
  }

  /**
   * A board's title and when it was last edited, in milliseconds since 1970. No title for a board
   * that can't be read, and the last one known, if any, while reading it takes long: the others
   * are to be listed all the same. Whoever asks for many is told apart by a name of any kind.
   */
  async read(
    board: BoardId,
    asker: string,
  ): Promise<{ readonly title: string; readonly editedAt: number }> {
    const { row, boardEditedAt } = await this.ports.log.newest({ board, document: "board" });
    const title = await inTime((signal) => this.titleAt(board, row, { asker, signal }));
    return { title: title ?? this.known.get(board)?.title ?? "", editedAt: boardEditedAt };
  }

  /**
   * The title at a row or a later one; whoever asks meanwhile waits for the same reading. Undefined
   * when it has not been begun by the time that nobody waits for it.
   */
  private async titleAt(board: BoardId, row: RowId, asking: Asking): Promise<string | undefined> {
    const here = await this.titleHere(board, row);
    if (here !== undefined) return here;
    const leave = await this.places.enter(asking.asker, asking.signal);
    if (leave === undefined) return undefined;
    try {
      const meanwhile = await this.titleHere(board, row);
      if (meanwhile !== undefined) return meanwhile;
      return (await (this.underway.get(board) ?? this.begin(board)))?.title ?? "";
    } finally {
      leave();
    }
  }

  /** As `titleAt` without reading anything anew; undefined where that must be. */
  private async titleHere(board: BoardId, row: RowId): Promise<string | undefined> {
    const known = this.known.get(board);
    if (known !== undefined && (known.row >= row || this.ports.clock() < known.until)) {
      this.remember(board, known);
      return known.title;
    }
    const underway = this.underway.get(board);
    if (underway === undefined) return undefined;
    const read = await underway;
    if (read === undefined) return "";
    return read.row >= row ? read.title : undefined;
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
      const title = this.known.get(board)?.title ?? "";
      return this.remember(board, { row, title, until: clock() + quarantineMs });
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

async function inTime(
  read: (signal: AbortSignal) => Promise<string | undefined>,
): Promise<string | undefined> {
  const waiting = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(resolve, titleWaitMs, undefined);
  });
  try {
    return await Promise.race([read(waiting.signal), late]);
  } finally {
    clearTimeout(timer);
    waiting.abort();
  }
}
