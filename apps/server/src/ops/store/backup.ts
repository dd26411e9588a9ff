/** A backup of a store, taken while the server writes. */
import { chmodSync, existsSync, linkSync, rmSync, statSync } from "node:fs";
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
  const part = `${file}.part`;
  try {
    rmSync(part, { force: true });
    db.prepare("VACUUM INTO ?").run(part);
    chmodSync(part, 0o600);
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
