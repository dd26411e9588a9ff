/** What stands on a server's disk, read beside the running server. */
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { openStoreReadOnly } from "@halflap/server/store";
import type { BoardId } from "@halflap/wire/api";
import Sqlite from "better-sqlite3";
import type { TestServer } from "./server.ts";

/** A board's documents as they are stored now. */
export function documentsOnDisk(
  server: Pick<TestServer, "folder">,
  board: BoardId,
): BoardDocuments {
  const store = openStoreReadOnly(server.folder);
  try {
    return store.documents(board) ?? emptyDocuments();
  } finally {
    store.close();
  }
}

/** How many rows the log holds, over all boards: a refused update must not add one. */
export function rowsOnDisk(server: TestServer): number {
  return count(server, "SELECT count(*) AS n FROM updates");
}

/** Every value in every table as one text in Latin-1, to look for bytes that should be nowhere. */
export function everythingOnDisk(server: TestServer): string {
  const db = new Sqlite(server.file, { readonly: true });
  try {
    const tables = db
      .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'table'")
      .all();
    const rows = tables.flatMap(({ name }) =>
      db.prepare<[], Record<string, unknown>>(`SELECT * FROM ${name}`).all(),
    );
    return rows.flatMap((row) => Object.values(row).map(textOf)).join("\n");
  } finally {
    db.close();
  }
}

function textOf(value: unknown): string {
  return Buffer.isBuffer(value) ? value.toString("latin1") : String(value);
}

function count(server: TestServer, sql: string): number {
  const db = new Sqlite(server.file, { readonly: true });
  try {
    return db.prepare<[], { n: number }>(sql).get()?.n ?? 0;
  } finally {
    db.close();
  }
}
