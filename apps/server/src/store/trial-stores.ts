/** Stores for tests: each adapter on an empty place of its own. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openStore, storeFile } from "./sqlite/store.ts";
import type { Store } from "./store.ts";

/** Where one store is kept, to be opened again and again. */
export type TrialPlace = { open(): Promise<Store>; remove(): Promise<void> };

export type TrialAdapter = {
  readonly name: string;
  /** A new place; `now` is the clock of the stores opened there. */
  make(now: () => number): Promise<TrialPlace>;
};

/** Every kind of store, in its own words. */
export const trialAdapters: readonly TrialAdapter[] = [
  {
    name: "SQLite",
    async make(now) {
      const folder = mkdtempSync(join(tmpdir(), "halflap-store-"));
      const path = join(folder, storeFile);
      return {
        open: async () => openStore({ path, pagesMax: undefined }, now),
        remove: async () => rmSync(folder, { recursive: true }),
      };
    },
  },
];
