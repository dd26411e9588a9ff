/** Titles of boards, read from their documents and remembered while nothing newer is stored. */
import { copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import * as Y from "yjs";
import type { DocumentKey, RowId, UpdateLog } from "../store/log-port.ts";
import { SetAside } from "./quarantine.ts";
import type { Rooms } from "./rooms.ts";

type Known = { readonly row: RowId; readonly title: string };

/** Boards remembered at once; the one asked for longest ago makes room. */
const rememberedMax = 1000;

export class BoardTitles {
  private readonly known = new Map<BoardId, Known>();
  private readonly log: Pick<UpdateLog, "newest">;
  private readonly rooms: Pick<Rooms, "look">;

  constructor(log: Pick<UpdateLog, "newest">, rooms: Pick<Rooms, "look">) {
    this.log = log;
    this.rooms = rooms;
  }

  /**
   * A board's title and when it was last edited, in milliseconds since 1970. No title for a board
   * that can't be read: the others are to be listed all the same.
   */
  async read(board: BoardId): Promise<{ readonly title: string; readonly editedAt: number }> {
    const key = { board, document: "board" } as const;
    const { row, boardEditedAt } = await this.log.newest(key);
    const known = this.known.get(board);
    const title = known?.row === row ? known.title : await this.titleNow(key);
    if (title === undefined) return { title: "", editedAt: boardEditedAt };
    this.known.delete(board);
    this.known.set(board, { row, title });
    const [oldest] = this.known.keys();
    if (this.known.size > rememberedMax && oldest !== undefined) this.known.delete(oldest);
    return { title, editedAt: boardEditedAt };
  }

  private async titleNow(key: DocumentKey): Promise<string | undefined> {
    const documents = emptyDocuments();
    try {
      const { stored } = await this.rooms.look(key);
      for (const { update } of stored.rows) Y.applyUpdate(documents.board, update);
    } catch (fault) {
      if (fault instanceof SetAside) return undefined;
      throw fault;
    }
    return copyOf(documents).title;
  }
}
