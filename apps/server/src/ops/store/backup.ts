/** A backup of a store, taken while the server writes. */
import { randomUUID } from "node:crypto";
import { existsSync, linkSync, rmSync, statSync, writeFileSync } from "node:fs";
import { CantDo, openToRead, syncFolderOf, syncToDisk } from "./place.ts";

export type BackedUp = { readonly boards: number; readonly bytes: number };

/**
 * Writes all that was committed when it began into one file, in a single reading transaction:
 * writers are not held up, and everything said to be saved before is in it. The file has its name
 * only once it is whole and on the disk. Throws CantDo when the name is taken.
 */
export function backUp(store: string, file: string): BackedUp {
  if (existsSync(file)) throw new CantDo(`${file} is there already; no backup replaces another.`);
  const db = openToRead(store);
  const part = `${file}.${randomUUID()}.part`; // whatever else lies there is somebody's
  try {
    // Who may read it is settled before anything is in it.
    writeFileSync(part, "", { mode: 0o600, flag: "wx" });
    db.prepare("VACUUM INTO ?").run(part);
    syncToDisk(part);
    linkSync(part, file); // unlike a rename it replaces nothing
    syncFolderOf(file);
  } finally {
    db.close();
    rmSync(part, { force: true });
  }
  return { boards: boardsIn(file), bytes: statSync(file).size };
}

function boardsIn(file: string): number {
  const db = openToRead(file);
  try {
    return db.prepare<[], { n: number }>("SELECT count(*) AS n FROM boards").get()?.n ?? 0;
  } finally {
    db.close();
  }
}
