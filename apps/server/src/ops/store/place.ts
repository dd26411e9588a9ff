/** A store's file as commands find it: looked at beside a server, or taken from everybody. */
import { closeSync, fsyncSync, openSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import Sqlite, { type Database } from "better-sqlite3";
import { schemaVersion } from "../../store/sqlite/schema.ts";
import { storeFile } from "../../store/sqlite/store.ts";

/** Why a command can't do what it was asked; a sentence for the person. */
export class CantDo extends Error {
  override readonly name = "CantDo";
}

/** The file meant by a store's folder or by the file itself; it need not be there. */
export function fileOf(path: string): string {
  const isFolder = statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
  return isFolder ? join(path, storeFile) : path;
}

/**
 * Opens a store or a backup to read it, beside a server or not. Throws CantDo when it is none, is
 * damaged at its head, or was made by a newer server.
 */
export function openToRead(path: string): Database {
  const file = fileOf(path);
  if (statSync(file, { throwIfNoEntry: false }) === undefined) {
    throw new CantDo(`${file} is not there.`);
  }
  const db = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    const version = versionOf(db);
    if (version < 1) throw new CantDo(`${file} is no store.`);
    if (version <= schemaVersion) {
      if (hasTables(db)) return db;
      throw new CantDo(`${file} is no store.`);
    }
    throw new CantDo(
      `${file} has schema ${version}, made by a newer server; this one knows ${schemaVersion}.`,
    );
  } catch (fault) {
    db.close();
    if (fault instanceof CantDo) throw fault;
    throw new CantDo(`${file} can't be read as a store: ${messageOf(fault)}.`);
  }
}

/** The same for a store whose schema is this program's own. Throws CantDo for an older one too. */
export function openCurrent(path: string): Database {
  const db = openToRead(path);
  const version = versionOf(db);
  if (version === schemaVersion) return db;
  db.close();
  const advice = "start the server on it once, or restore it, to bring it up to date";
  throw new CantDo(
    `${path} has schema ${version}, and this program reads ${schemaVersion}: ${advice}.`,
  );
}

/**
 * Opens a store that nobody else has open, and keeps it from everybody until it is closed. Every
 * server holds a shared lock for as long as it has the file open, and leaving the WAL needs the
 * whole one. Throws CantDo when somebody has it.
 */
export function openAlone(file: string): Database {
  const db = new Sqlite(file, { fileMustExist: true });
  try {
    db.pragma("busy_timeout = 500");
    db.pragma("locking_mode = EXCLUSIVE");
    db.pragma("journal_mode = DELETE");
    db.exec("BEGIN EXCLUSIVE; COMMIT"); // in this mode the lock stays
    return db;
  } catch (fault) {
    db.close();
    const isBusy = fault instanceof Sqlite.SqliteError && fault.code.startsWith("SQLITE_BUSY");
    if (!isBusy) throw fault;
    throw new CantDo(`${file} is in use; stop the server first.`);
  }
}

/** Makes a file, or what stands in a folder, survive a power cut. */
export function syncToDisk(path: string): void {
  const handle = openSync(path, "r");
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** The same for the folder of a file. */
export function syncFolderOf(file: string): void {
  syncToDisk(dirname(file));
}

/** What a fault says, without a full stop. */
export function messageOf(fault: unknown): string {
  return fault instanceof Error ? fault.message.replace(/\.$/, "") : String(fault);
}

/** Other programs count their schemas in the same place. */
function hasTables(db: Database): boolean {
  const found = db.prepare<[], { n: number }>(
    `SELECT count(*) AS n FROM sqlite_schema
     WHERE type = 'table' AND name IN ('boards', 'documents', 'updates', 'members')`,
  );
  return found.get()?.n === 4;
}

function versionOf(db: Database): number {
  return Number(db.pragma("user_version", { simple: true }));
}
