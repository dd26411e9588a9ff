/** A backup put back in a store's place, with every board under a new epoch. */
import {
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import type { Database } from "better-sqlite3";
import { openSqlite } from "../../store/sqlite/open.ts";
import { storeFile } from "../../store/sqlite/store.ts";
import { askingFile } from "./file-records.ts";
import { CantDo, messageOf, openAlone, openToRead, syncFolderOf, syncToDisk } from "./place.ts";
import { epochAt, raiseAll } from "./raise-epochs.ts";

export type Restored = {
  readonly boards: number;
  /** Where the store is now that stood there before; undefined when there was none. */
  readonly before: string | undefined;
};

/**
 * Puts a backup in the place of a store, which is kept beside it under another name. Every board
 * gets an epoch above all that were ever given: pages that know more than the backup keep their own
 * copy apart, and their ids are not taken for others'. Throws CantDo when a server has the store
 * open or the backup is damaged; then nothing has changed.
 */
export async function restore(backup: string, folder: string, now: number): Promise<Restored> {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const file = join(folder, storeFile);
  const part = `${file}.restoring`;
  removeAll(part);
  removeSecondNames(file);
  let old: Database | undefined;
  try {
    copyChecked(backup, part);
    old = existsSync(file) ? openOld(file) : undefined;
    const boards = await raiseIn(part, Math.max(newest(old) + 1, epochAt(now)));
    syncToDisk(part);
    const before = existsSync(file) ? keepAside(file, now) : undefined;
    renameSync(part, file); // in one step: a start finds the one store or the other, never none
    syncFolderOf(file);
    return { boards, before };
  } catch (fault) {
    removeSecondNames(file);
    throw fault;
  } finally {
    old?.close();
    removeAll(part);
  }
}

/** A store too damaged to be opened is open nowhere else either. */
function openOld(file: string): Database | undefined {
  try {
    return openAlone(file);
  } catch (fault) {
    if (fault instanceof CantDo) throw fault;
    return undefined;
  }
}

function copyChecked(backup: string, part: string): void {
  const db = openToRead(backup);
  try {
    const found = quickCheck(db);
    if (found !== "ok") throw new CantDo(`${backup} is damaged: ${found}.`);
    writeFileSync(part, "", { mode: 0o600 }); // who may read it is settled before anything is in it
    db.prepare("VACUUM INTO ?").run(part);
  } finally {
    db.close();
  }
}

/** "ok", or what is damaged. */
function quickCheck(db: Database): string {
  try {
    return String(db.pragma("quick_check(1)", { simple: true }));
  } catch (fault) {
    return messageOf(fault);
  }
}

async function raiseIn(part: string, least: number): Promise<number> {
  const db = openSqlite({ path: part, pagesMax: undefined });
  try {
    const raised = await raiseAll(askingFile(db), least);
    db.pragma("journal_mode = DELETE"); // one file, without a log beside it
    return raised;
  } finally {
    db.close();
  }
}

function newest(old: Database | undefined): number {
  try {
    const sql = "SELECT max(epoch) AS epoch FROM boards";
    return old?.prepare<[], { epoch: number | null }>(sql).get()?.epoch ?? 0;
  } catch {
    return 0; // damaged; the clock stands in for it
  }
}

/** Under a second name: the first stays until the other store takes it. */
function keepAside(file: string, now: number): string {
  const stamp = new Date(now).toISOString().replace(/[:.]/g, "-");
  const aside = join(dirname(file), `before-restore-${stamp}.sqlite`);
  linkSync(file, aside);
  for (const end of ["-wal", "-shm"]) {
    if (existsSync(file + end)) renameSync(file + end, aside + end);
  }
  syncFolderOf(file);
  return aside;
}

/**
 * What a restore left that was cut off: a store kept aside that still is the one in use would
 * change with it. What lay in a log beside it goes back there.
 */
function removeSecondNames(file: string): void {
  if (!existsSync(file)) return;
  const { ino } = statSync(file);
  for (const name of readdirSync(dirname(file))) {
    const aside = join(dirname(file), name);
    if (!/^before-restore-.*\.sqlite$/.test(name) || statSync(aside).ino !== ino) continue;
    for (const end of ["-wal", "-shm"]) {
      if (existsSync(aside + end)) renameSync(aside + end, file + end);
    }
    unlinkSync(aside);
  }
}

function removeAll(part: string): void {
  for (const end of ["", "-wal", "-shm", "-journal"]) rmSync(part + end, { force: true });
}
