/**
 * Opening the SQLite file: how it commits, how much it may hold, and how "full" is told from other
 * faults.
 */
import { closeSync, fdatasync, mkdirSync, openSync, statSync } from "node:fs";
import { dirname } from "node:path";
import Sqlite, { type Database } from "better-sqlite3";
import { StoreBroken, StoreFull } from "../log-port.ts";
import { bringUpToDate } from "./schema.ts";

export type OpenStore = {
  readonly path: string;
  /** Quota in pages of 4 KiB; undefined = the disk is the limit. */
  readonly pagesMax: number | undefined;
};

/**
 * The open file, its schema up to date.
 *
 * WAL with synchronous=FULL: every commit ends with a sync of the write-ahead log, so what is
 * answered survives a power cut and not only a killed process. Edits are committed by
 * `writtenLater`, which leaves the sync to `onDisk`, so that this thread does not stand still;
 * what was folded too, which need not be on disk at once.
 * The log is copied back into the file once it has so many pages; more of them at once are fewer.
 */
export function openSqlite({ path, pagesMax }: OpenStore): Database {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const db = new Sqlite(path);
  db.pragma("journal_mode = WAL");
  db.pragma("synchronous = FULL");
  db.pragma("foreign_keys = ON");
  db.pragma("busy_timeout = 2000");
  db.pragma("wal_autocheckpoint = 4000");
  bringUpToDate(db);
  if (pagesMax !== undefined) db.pragma(`max_page_count = ${pagesMax}`);
  return db;
}

/**
 * Runs a write whose commit does not sync: it is in the write-ahead log, and survives a power cut
 * only once `onDisk` has said so. Before the log is copied back SQLite syncs it all the same.
 */
export function writtenLater<T>(db: Database, write: () => T): T {
  db.pragma("synchronous = NORMAL");
  try {
    return write();
  } finally {
    db.pragma("synchronous = FULL");
  }
}

/**
 * What comes back syncs the write-ahead log of an open file in the thread pool, and resolves when
 * everything committed before the call would survive a power cut. Rejects with StoreBroken when the
 * disk says that it can't, and the file is not written any more: its log may have a hole now, since
 * no later sync tells of what an earlier one lost, and a recovery does not look behind a hole.
 */
export function onDisk(db: Database): () => Promise<void> {
  if (db.memory) return () => Promise.resolve();
  let log: number | undefined; // it is there once something was written
  const close = db.close.bind(db);
  db.close = () => {
    if (log !== undefined) closeSync(log);
    log = undefined;
    return isBroken(db) ? db : close(); // closing would copy the log back, with its hole
  };
  return () => {
    log ??= openSync(`${db.name}-wal`, "r");
    const file = log;
    return new Promise((resolve, reject) => {
      fdatasync(file, (fault) => {
        if (fault === null) return resolve();
        reject(broken(db, fault));
      });
    });
  };
}

/** Bytes of the file and of the log beside it; 0 for one that is not there. */
export function fileBytes(path: string): number {
  const sizes = [path, `${path}-wal`].map(
    (each) => statSync(each, { throwIfNoEntry: false })?.size,
  );
  return sizes.reduce<number>((sum, size) => sum + (size ?? 0), 0);
}

/**
 * Runs a write; a full disk or quota becomes StoreFull, a sync that failed StoreBroken, everything
 * else stays what it is.
 */
export function writing<T>(db: Database, write: () => T): T {
  try {
    return write();
  } catch (fault) {
    if (!(fault instanceof Sqlite.SqliteError)) throw fault;
    if (isBroken(db) || isUnsynced(fault)) throw broken(db, fault);
    if (isFull(fault)) throw new StoreFull("the store is full", { cause: fault });
    throw fault;
  }
}

/** Leaves the file as it is from now on, read and not written, and says why. */
function broken(db: Database, cause: Error): StoreBroken {
  if (db.open) db.pragma("query_only = ON");
  return new StoreBroken("the disk lost what was written", { cause });
}

function isBroken(db: Database): boolean {
  return db.pragma("query_only", { simple: true }) === 1;
}

/** A sync of SQLite's own: the commit is undone, but what lies before it may be lost as well. */
function isUnsynced({ code }: { readonly code: string }): boolean {
  return code === "SQLITE_IOERR_FSYNC" || code === "SQLITE_IOERR_DIR_FSYNC";
}

/** A failing disk shows as SQLITE_IOERR; like a full one it may pass, and nothing was stored. */
function isFull({ code }: { readonly code: string }): boolean {
  return code.startsWith("SQLITE_IOERR") || code === "SQLITE_FULL" || code === "SQLITE_READONLY";
}
