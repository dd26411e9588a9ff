/** The store that the settings choose: a file of this machine, or a database that nodes share. */
import { join } from "node:path";
import { BadVariable, type Config } from "../config.ts";
import { DatabaseUnfit } from "./postgres/faults.ts";
import { openPostgres } from "./postgres/store.ts";
import { fileBytes } from "./sqlite/open.ts";
import { openStore, storeFile } from "./sqlite/store.ts";
import type { Store } from "./store.ts";

export type ChosenStore = {
  readonly store: Store;
  /** Whether other nodes may write to it too. */
  readonly isShared: boolean;
  /** Its size on disk; undefined where another program keeps it. */
  bytes(): number | undefined;
};

type Choice = Pick<Config, "database" | "store" | "storePagesMax">;

/**
 * Opens it. Rejects with BadVariable when the database can't be used, in words without its
 * password. `onLost` hears of lines to the database that ended while nobody used them.
 */
export async function openChosenStore(
  { database, store: folder, storePagesMax: pagesMax }: Choice,
  now: () => number,
  onLost: (fault: unknown) => void,
): Promise<ChosenStore> {
  if (database === undefined) {
    const path = join(folder, storeFile);
    const store = openStore({ path, pagesMax }, now);
    return { store, isShared: false, bytes: () => fileBytes(path) };
  }
  try {
    const store = await openPostgres({ address: database, now, onFault: onLost });
    return { store, isShared: true, bytes: () => undefined };
  } catch (fault) {
    if (!(fault instanceof DatabaseUnfit)) throw fault;
    throw new BadVariable(`HALFLAP_DATABASE_URL: ${fault.message}`);
  }
}
