/**
 * The update log: what a place that keeps documents must offer. Yjs updates go in as bytes and come
 * out as bytes.
 */
import type { MemberId } from "@halflap/board/board";
import type { DocumentName } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";

/** Names one document among all boards. */
export type DocumentKey = { readonly board: BoardId; readonly document: DocumentName };

/**
 * Grows with every row of a document, in the order of the commits; 0 stands before the first. Where
 * several nodes share a store it is dense: no number is left out.
 */
export type RowId = number & { readonly unit: "RowId" };

/** A row's id as the store gave it. */
export function rowId(stored: number): RowId {
  return stored as RowId;
}

/** A client id that a member wrote under for the first time. */
export type Binding = { readonly client: number; readonly member: MemberId };

export type NewRow = {
  readonly key: DocumentKey;
  /**
   * Made by the writer, never used for another row. By it a row that comes again is known, where
   * the result of a commit can stay unknown.
   */
  readonly message: string;
  readonly update: Uint8Array;
  readonly bindings: readonly Binding[];
};

/** What became of a row. */
export type Appended =
  /** Under this id, now or when the same message came before. */
  | { readonly kind: "stored"; readonly row: RowId }
  /** Its board is gone. */
  | { readonly kind: "gone" }
  /** One of its client ids is another member's: nothing of the row was stored. */
  | { readonly kind: "foreign" };

export type StoredRow = { readonly id: RowId; readonly update: Uint8Array };

export type StoredDocument = {
  readonly rows: readonly StoredRow[]; // oldest first
  readonly bindings: readonly Binding[];
  /** The newest row; 0 when there is none. */
  readonly head: RowId;
};

export type Since =
  | {
      readonly kind: "rows";
      readonly rows: readonly StoredRow[]; // oldest first
      /** Those that came with the rows, at least. */
      readonly bindings: readonly Binding[];
    }
  /** Rows behind the one named were folded: only `load` still tells what they said. */
  | { readonly kind: "compacted" };

/**
 * How long a message is remembered at least, also when its row was folded meanwhile; by a log that
 * needs to.
 */
export const messageRememberedMs = 60 * 60_000;

export type UpdateLog = {
  /**
   * Decides all rows in one transaction, in order, and resolves with what became of each when what
   * is stored would survive a power cut. Rejects with StoreFull when there is no room and with
   * StoreAway when the store can't be reached; then nothing may be said to be stored, and the same
   * rows may be handed in again.
   */
  append(rows: readonly NewRow[]): Promise<readonly Appended[]>;
  /** Everything stored for a document; empty when there is nothing. */
  load(key: DocumentKey): Promise<StoredDocument>;
  /** The rows behind one that was read before; none when the board is gone. */
  since(key: DocumentKey, after: RowId): Promise<Since>;
  /** The newest row of each document, in one question; 0 for one without rows or board. */
  heads(keys: readonly DocumentKey[]): Promise<readonly RowId[]>;
  /**
   * Replaces the rows up to `last` by one that says the same, which keeps the id `last`. The caller
   * has checked that it does. False, and nothing is changed, when `last` is not the row any more
   * that the caller read: somebody else folded as far meanwhile.
   */
  compact(key: DocumentKey, last: RowId, snapshot: Uint8Array): Promise<boolean>;
  /**
   * The newest row of a document and of its whole board, to know whether something read is still
   * current.
   */
  newest(key: DocumentKey): Promise<{ readonly row: RowId; readonly boardEditedAt: number }>;
};

/** There is no room on the disk, or the quota is used up: nothing of the attempt was stored. */
export class StoreFull extends Error {
  override readonly name: string = "StoreFull";
}

/** Nothing more can be kept until the process is started anew; what was said to be stored is. */
export class StoreBroken extends StoreFull {
  override readonly name = "StoreBroken";
}

/** The store did not answer in time, however often it was tried: whether it stored is not known. */
export class StoreAway extends Error {
  override readonly name = "StoreAway";
}
