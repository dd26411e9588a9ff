/** Titles of boards, read from their documents and remembered while nothing newer is stored. */
import { copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import * as Y from "yjs";
import type { RowId, UpdateLog } from "../store/log-port.ts";

type Known = { readonly row: RowId; readonly title: string };

/** Boards remembered at once; the one asked for longest ago makes room. */
const rememberedMax = 1000;

export class BoardTitles {
  private readonly known = new Map<BoardId, Known>();
  private readonly log: UpdateLog;

  constructor(log: UpdateLog) {
    this.log = log;
  }

  /** A board's title and when it was last edited, in milliseconds since 1970. */
  async read(board: BoardId): Promise<{ readonly title: string; readonly editedAt: number }> {
    const key = { board, document: "board" } as const;
    const { row, boardEditedAt } = await this.log.newest(key);
    const known = this.known.get(board);
    const title = known?.row === row ? known.title : await this.titleNow(board);
    this.known.delete(board);
    this.known.set(board, { row, title });
    const [oldest] = this.known.keys();
    if (this.known.size > rememberedMax && oldest !== undefined) this.known.delete(oldest);
    return { title, editedAt: boardEditedAt };
  }

  private async titleNow(board: BoardId): Promise<string> {
    const documents = emptyDocuments();
    const { rows } = await this.log.load({ board, document: "board" });
    for (const { update } of rows) Y.applyUpdate(documents.board, update);
    return copyOf(documents).title;
  }
}
