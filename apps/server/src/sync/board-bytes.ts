/**
 * What the documents of a board come to, in bytes: those that are open as they stand, the others as
 * they were found or left.
 */
import type { DocumentName } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import { boardBytesMax } from "@halflap/wire/limits";
import type { DocumentKey } from "../store/log-port.ts";

/** Bytes of a board's documents as a store holds them. */
export type StoredBytes = ReadonlyMap<DocumentName, number>;

type Sizes = {
  readonly closed: Map<DocumentName, number>;
  readonly open: Map<DocumentName, () => number>;
};

/** For the boards that have a document open. */
export class BoardBytes {
  private readonly boards = new Map<BoardId, Sizes>();

  /** Takes note of a document that is open from now on; `stored` is read where the board is new. */
  async open(
    { board, document }: DocumentKey,
    size: () => number,
    stored: () => Promise<StoredBytes>,
  ): Promise<void> {
    const found = this.boards.has(board) ? undefined : await stored();
    const sizes = this.boards.get(board) ?? { closed: new Map(found), open: new Map() };
    this.boards.set(board, sizes);
    sizes.open.set(document, size);
  }

  /** Takes note that it was closed; a board without an open document is forgotten. */
  close({ board, document }: DocumentKey): void {
    const sizes = this.boards.get(board);
    const size = sizes?.open.get(document);
    if (sizes === undefined || size === undefined) return;
    sizes.closed.set(document, size());
    sizes.open.delete(document);
    if (sizes.open.size === 0) this.boards.delete(board);
  }

  /** Whether so many bytes more are within a board's bound. */
  hasRoomFor(board: BoardId, bytes: number): boolean {
    const { open, closed } = this.boards.get(board) ?? { open: new Map(), closed: new Map() };
    let held = bytes;
    for (const size of open.values()) held += size();
    for (const [document, size] of closed) if (!open.has(document)) held += size;
    return held <= boardBytesMax;
  }
}
