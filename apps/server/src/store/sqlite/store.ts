/** The embedded store: the log, the people and the takes in one SQLite file. */
import type { Database } from "better-sqlite3";
import type { Store } from "../store.ts";
import { sqliteLanes } from "./lanes.ts";
import { sqliteLinks } from "./links.ts";
import { sqliteLog } from "./log.ts";
import { sqliteMembers } from "./members.ts";
import { type OpenStore, openSqlite } from "./open.ts";
import { sqliteTakes } from "./takes.ts";

/** The file in a store's folder. */
export const storeFile = "boards.sqlite";

/** Opens or makes the file. Throws when it can't be opened or belongs to a newer server. */
export function openStore(options: OpenStore, now: () => number): Store {
  return storeOver(openSqlite(options), now);
}

/** The ports over an open file whose schema is up to date. */
export function storeOver(db: Database, now: () => number): Store {
  return {
    log: sqliteLog(db, now),
    people: { ...sqliteMembers(db), ...sqliteLinks(db), ...sqliteLanes(db) },
    takes: sqliteTakes(db),
    async close() {
      db.close();
    },
  };
}
