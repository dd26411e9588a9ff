/** Readiness: follows the last commit, tries by itself once that failed, and ends with a stop. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { StoreAway, StoreFull } from "../store/log-port.ts";
import type { People } from "../store/people-port.ts";
import { openStore } from "../store/sqlite/store.ts";
import { boardTrial, makeReadiness } from "./readiness.ts";
import { statusRoutes } from "./status-routes.ts";

test("a store that failed is tried again, at most every two seconds", async () => {
  let ms = 0;
  let trials = 0;
  let isFull = true;
  const readiness = makeReadiness({
    isTakingRows: () => false,
    async tryWriting() {
      trials += 1;
      if (isFull) throw new StoreFull("full");
    },
    clock: () => ms,
  });
  expect(await readiness.now()).toBe("unwritable");
  expect(await readiness.now()).toBe("unwritable");
  expect(trials).toBe(1);
  isFull = false;
  ms = 2_000;
  expect(await readiness.now()).toBe("ready");
  expect(trials).toBe(2);
  readiness.drain();
  expect(await readiness.now()).toBe("draining");
});

test.each([
  ["leaves nothing in a store with room", undefined],
  ["fails in a full one", 1],
])("the trial %s", async (_what, pagesMax) => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-ready-"));
  const path = join(folder, "boards.sqlite");
  const store = openStore({ path, pagesMax }, () => 1);
  const trial = boardTrial(store.people, () => 1)();
  if (pagesMax === undefined) await trial;
  else await expect(trial).rejects.toThrow(StoreFull);
  await store.close();
  const db = new Sqlite(path, { readonly: true });
  expect(db.prepare("SELECT * FROM boards").all()).toEqual([]);
  expect(db.prepare("SELECT * FROM updates").all()).toEqual([]);
  db.close();
  rmSync(folder, { recursive: true });
});

test("a trial board of which the store did not say whether it made it is removed too", async () => {
  const boards = new Set<string>();
  const people = {
    async makeBoard({ id }: { readonly id: string }) {
      boards.add(id);
      throw new StoreAway("the store did not say whether it stored");
    },
    removeBoard: async (id: string) => void boards.delete(id),
  };
  const trial = boardTrial(people as unknown as People, () => 1);
  for (let i = 0; i < 3; i += 1) await expect(trial()).rejects.toThrow(StoreAway);
  expect(boards.size).toBe(1);
});

test("alive is said without asking the store, ready with a status for proxies", async () => {
  let asked = 0;
  let state: "ready" | "unwritable" = "ready";
  const now = async () => {
    asked += 1;
    return state;
  };
  const routes = statusRoutes({ now, drain: () => undefined, isDraining: false }, "1.2.3");
  expect((await routes.request("/healthz")).status).toBe(200);
  expect(asked).toBe(0);
  expect((await routes.request("/readyz")).status).toBe(200);
  state = "unwritable";
  const answer = await routes.request("/readyz");
  expect([answer.status, await answer.text()]).toEqual([503, "unwritable"]);
  expect(await (await routes.request("/version")).json()).toEqual({ version: "1.2.3" });
});
