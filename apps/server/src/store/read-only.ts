/**
 * A look into a store from outside the server, while it runs or not: boards and their documents,
 * nobody's secrets.
 */
import { statSync } from "node:fs";
import { join } from "node:path";
import { copyOf } from "@halflap/board/copy";
import { type BoardDocuments, documentNames, emptyDocuments } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import Sqlite, { type Database } from "better-sqlite3";
import * as Y from "yjs";
import { decodeBoardId } from "./secret.ts";
import { schemaVersion } from "./sqlite/schema.ts";
import { storeFile } from "./sqlite/store.ts";

export type StoredBoard = {
  readonly id: BoardId;
  /** Undefined when the board can't be read. */
  readonly title: string | undefined;
  /** ISO 8601. */
  readonly editedAt: string;
};

export type ReadOnlyStore = {
  /** Every board, the one edited last first. */
  listBoards(): readonly StoredBoard[];
  /** A board's four documents as they are stored now; undefined when there is no such board. */
  documents(board: string): BoardDocuments | undefined;
  close(): void;
};

/**
 * Opens a store's folder, or the file in it. Throws when there is none, or when a newer server made
 * it.
 */
export function openStoreReadOnly(path: string): ReadOnlyStore {
  const file = statSync(path).isDirectory() ? join(path, storeFile) : path;
  const db = new Sqlite(file, { readonly: true, fileMustExist: true });
  const found = Number(db.pragma("user_version", { simple: true }));
  if (found !== schemaVersion) {
    db.close();
    throw new Error(`the store has schema ${found}; this program reads schema ${schemaVersion}`);
  }
  return {
    listBoards: () => listed(db),
    documents: (board) => documentsOf(db, board),
    close: () => db.close(),
  };
}

function listed(db: Database): readonly StoredBoard[] {
  const rows = db
    .prepare<[], { board: string; at: number }>(
      `SELECT board, max(at) AS at FROM updates JOIN documents ON documents.id = document
       WHERE name <> 'talk' GROUP BY board ORDER BY at DESC, board`,
    )
    .all();
  return rows.flatMap(({ board, at }) => {
    const id = decodeBoardId(board);
    if (id === undefined) return [];
    return [{ id, title: titleOf(db, board), editedAt: new Date(at).toISOString() }];
  });
}

/** One damaged row hides one title, and no other board. */
function titleOf(db: Database, board: string): string | undefined {
  try {
    const documents = documentsOf(db, board);
    return documents && copyOf(documents).title;
  } catch {
    return undefined;
  }
}

function documentsOf(db: Database, board: string): BoardDocuments | undefined {
  const isThere = db.prepare("SELECT 1 FROM boards WHERE id = ?").get(board) !== undefined;
  if (!isThere) return undefined;
  const rows = db.prepare<[string, string], { data: Buffer }>(
    `SELECT data FROM updates JOIN documents ON documents.id = document
     WHERE board = ? AND name = ? AND updates.id >= folded ORDER BY updates.id`,
  );
  const documents = emptyDocuments();
  for (const name of documentNames) {
    for (const { data } of rows.all(board, name)) {
      Y.applyUpdate(documents[name], new Uint8Array(data));
    }
  }
  return documents;
}
