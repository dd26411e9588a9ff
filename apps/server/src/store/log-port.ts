/**
 * The update log: what a place that keeps documents must offer. Yjs updates go in as bytes and come
 * out as bytes.
 */
import type { MemberId } from "@halflap/board/board";
import type { DocumentName } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";

/** Names one document among all boards. */
export type DocumentKey = { readonly board: BoardId; readonly document: DocumentName };

/** Grows with every row of the log; 0 stands before the first. */
export type RowId = number & { readonly unit: "RowId" };

/** A row's id as the store gave it. */
export function rowId(stored: number): RowId {
  return stored as RowId;
}

/** A client id that a member wrote under for the first time. */
export type Binding = { readonly client: number; readonly member: MemberId };

export type NewRow = {
  readonly key: DocumentKey;
  readonly update: Uint8Array;
  readonly bindings: readonly Binding[];
};

export type StoredRow = { readonly id: RowId; readonly update: Uint8Array };

export type StoredDocument = {
  readonly rows: readonly StoredRow[]; // oldest first
  readonly bindings: readonly Binding[];
};

export type UpdateLog = {
  /**
   * Stores all rows or none and resolves when they would survive a power cut. Rejects with
   * StoreFull when there is no room. Rows of a board that is gone are left out.
   */
  append(rows: readonly NewRow[]): Promise<void>;
  /** Everything stored for a document; empty when there is nothing. */
  load(key: DocumentKey): Promise<StoredDocument>;
  /**
   * Replaces the rows up to `last` by one that says the same. The caller has checked that it does.
   */
  compact(key: DocumentKey, last: RowId, snapshot: Uint8Array): Promise<void>;
  /**
   * The newest row of a document and of its whole board, to know whether something read is still
   * current.
   */
  newest(key: DocumentKey): Promise<{ readonly row: RowId; readonly boardEditedAt: number }>;
};

/** There is no room on the disk, or the quota is used up: nothing of the attempt was stored. */
export class StoreFull extends Error {
  override readonly name = "StoreFull";
}
