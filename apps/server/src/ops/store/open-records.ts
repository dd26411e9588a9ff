/** A store opened by a command: to be read beside a server, or to be changed. */
import { applicationName } from "../../store/postgres/connect.ts";
import { openPostgres } from "../../store/postgres/store.ts";
import { bringUpToDate } from "../../store/sqlite/schema.ts";
import { storeOver } from "../../store/sqlite/store.ts";
import type { Store } from "../../store/store.ts";
import { openDatabaseRecords, unfitWords, within as withinDatabase } from "./database-records.ts";
import { fileRecords, within as withinFile } from "./file-records.ts";
import { CantDo, fileOf, openAlone, openCurrent, openToRead } from "./place.ts";
import type { Records, StorePlace } from "./records.ts";

/** Tables that can be written too, and the ports of a server over the same store. */
export type WritableRecords = Records & {
  readonly store: Store;
  /** A transaction that writes. */
  change<T>(work: () => Promise<T>): Promise<T>;
  /** Takes what was deleted out of the store's free places too, as far as it does that at all. */
  tidy(): Promise<void>;
};

/** Opens a store to read it, beside a server or not. Rejects with CantDo when it can't be. */
export async function openRecords(place: StorePlace): Promise<Records> {
  if (place.kind === "database") return openDatabaseRecords(place.address);
  return fileRecords(openCurrent(place.path));
}

/**
 * Opens a store to change it: a file that no server has open, or a database, beside its nodes or
 * alone as well. Rejects with CantDo when it can't be.
 */
export async function openToChange(
  place: StorePlace,
  now: number,
  company: "beside nodes" | "alone",
): Promise<WritableRecords> {
  if (place.kind === "database") return databaseToChange(place.address, now, company);
  const file = fileOf(place.path);
  openToRead(file).close(); // refuses what is no store before anything is changed in it
  const db = openAlone(file);
  try {
    bringUpToDate(db);
    db.pragma("foreign_keys = ON");
  } catch (fault) {
    db.close();
    throw fault;
  }
  return {
    ...fileRecords(db),
    store: storeOver(db, () => now),
    change: (work) => withinFile(db, "BEGIN IMMEDIATE", work),
    tidy: async () => void db.exec("VACUUM"),
  };
}

async function databaseToChange(
  address: string,
  now: number,
  company: "beside nodes" | "alone",
): Promise<WritableRecords> {
  const records = await openDatabaseRecords(address);
  if (company === "alone" && (await othersIn(records))) {
    await records.close();
    throw new CantDo("The database is in use; stop the nodes first.");
  }
  const opening = openPostgres({ address, now: () => now, onFault: () => undefined });
  const store = await opening.catch(async (fault: unknown) => {
    await records.close();
    throw unfitWords(fault);
  });
  return {
    ...records,
    store,
    change: (work) => withinDatabase({ query: records.ask }, "BEGIN", work),
    tidy: async () => void (await records.ask("VACUUM members, sessions, links, lanes, updates")),
    async close() {
      await store.close();
      await records.close();
    },
  };
}

/** Nodes and commands name themselves; one that does nothing for a while may have no line open. */
async function othersIn({ ask }: Records): Promise<boolean> {
  const others = await ask(
    `SELECT pid FROM pg_stat_activity WHERE datname = current_database()
     AND application_name = $1 AND pid <> pg_backend_pid()`,
    [applicationName],
  );
  return others.length > 0;
}
