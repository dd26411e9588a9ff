/** Stores for tests: each adapter on an empty place of its own. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { openPostgres } from "./postgres/store.ts";
import { openStore, storeFile } from "./sqlite/store.ts";
import type { Store } from "./store.ts";

/** Where one store is kept, to be opened again and again. */
export type TrialPlace = { open(): Promise<Store>; remove(): Promise<void> };

export type TrialAdapter = {
  readonly name: string;
  /** Whether the result of a commit may stay unknown, so that rows come again. */
  readonly isRemote: boolean;
  /** A new place; `now` is the clock of the stores opened there. */
  make(now: () => number): Promise<TrialPlace>;
};

/** Every kind of store, in its own words. */
export const trialAdapters: readonly TrialAdapter[] = [
  {
    name: "SQLite",
    isRemote: false,
    async make(now) {
      const folder = mkdtempSync(join(tmpdir(), "halflap-store-"));
      const path = join(folder, storeFile);
      return {
        open: async () => openStore({ path, pagesMax: undefined }, now),
        remove: async () => rmSync(folder, { recursive: true }),
      };
    },
  },
  {
    name: "PostgreSQL",
    isRemote: true,
    async make(now) {
      const { address, remove } = await makeTrialDatabase();
      return {
        // A connection that ends while nobody uses it is nothing to a test.
        open: () => openPostgres({ address, now, onFault: () => undefined }),
        remove,
      };
    },
  },
];

let databases = 0;

/** An empty database in the PostgreSQL that was started for the tests. */
export async function makeTrialDatabase() {
  databases += 1;
  const name = `trial_${process.pid}_${databases}`;
  await atServer(`CREATE DATABASE ${name}`);
  return {
    address: new URL(name, testServer()).href,
    remove: () => atServer(`DROP DATABASE ${name} WITH (FORCE)`),
  };
}

async function atServer(statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: testServer() });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}

function testServer(): string {
  const address = process.env.HALFLAP_TEST_POSTGRES;
  if (address === undefined) throw new Error("run these tests with vitest's project stores");
  return address;
}
