/** The embedded store: the log, the people and the takes in one SQLite file. */
import type { UpdateLog } from "../log-port.ts";
import type { People } from "../people-port.ts";
import type { Takes } from "../takes-port.ts";
import { sqliteLanes } from "./lanes.ts";
import { sqliteLinks } from "./links.ts";
import { sqliteLog } from "./log.ts";
import { sqliteMembers } from "./members.ts";
import { type OpenStore, openSqlite } from "./open.ts";
import { sqliteTakes } from "./takes.ts";

/** The file in a store's folder. */
export const storeFile = "boards.sqlite";

export type Store = {
  readonly log: UpdateLog;
  readonly people: People;
  readonly takes: Takes;
  /** Ends every use; nothing may be asked of the store afterwards. */
  close(): Promise<void>;
};

/** Opens or makes the file. Throws when it can't be opened or belongs to a newer server. */
export function openStore(options: OpenStore, now: () => number): Store {
  const db = openSqlite(options);
  return {
    log: sqliteLog(db, now),
    people: { ...sqliteMembers(db), ...sqliteLinks(db), ...sqliteLanes(db) },
    takes: sqliteTakes(db),
    async close() {
      db.close();
    },
  };
}
