/**
 * Opening the SQLite file: how it commits, how much it may hold, and how "full" is told from other
 * faults.
 */
import { mkdirSync, statSync } from "node:fs";
import { dirname } from "node:path";
import Sqlite, { type Database } from "better-sqlite3";
import { StoreFull } from "../log-port.ts";
import { bringUpToDate } from "./schema.ts";

export type OpenStore = {
  readonly path: string;
  /** Quota in pages of 4 KiB; undefined = the disk is the limit. */
  readonly pagesMax: number | undefined;
};

/**
 * The open file, its schema up to date.
 *
 * WAL with synchronous=FULL: every commit ends with an fsync of the log, so "saved" survives a
 * power cut and not only a killed process. It blocks this thread for the length of one fsync, which
 * group commit (save-loop.ts) pays once for all edits that came in meanwhile. Plain and checkable,
 * where NORMAL with an fsync of our own beside it would be faster and would have to be proven.
 */
export function openSqlite({ path, pagesMax }: OpenStore): Database {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const db = new Sqlite(path);
  db.pragma("journal_mode = WAL");
  db.pragma("synchronous = FULL");
  db.pragma("foreign_keys = ON");
  db.pragma("busy_timeout = 2000");
  bringUpToDate(db);
  if (pagesMax !== undefined) db.pragma(`max_page_count = ${pagesMax}`);
  return db;
}

/** Bytes of the file and of the log beside it; 0 for one that is not there. */
export function fileBytes(path: string): number {
  const sizes = [path, `${path}-wal`].map(
    (each) => statSync(each, { throwIfNoEntry: false })?.size,
  );
  return sizes.reduce<number>((sum, size) => sum + (size ?? 0), 0);
}

/** Runs a write; a full disk or quota becomes StoreFull, everything else stays what it is. */
export function writing<T>(write: () => T): T {
  try {
    return write();
  } catch (fault) {
    if (isFull(fault)) throw new StoreFull("the store is full", { cause: fault });
    throw fault;
  }
}

/** A failing disk shows as SQLITE_IOERR; like a full one it may pass, and nothing was stored. */
function isFull(fault: unknown): boolean {
  if (!(fault instanceof Sqlite.SqliteError)) return false;
  return fault.code === "SQLITE_FULL" || fault.code.startsWith("SQLITE_IOERR");
}
