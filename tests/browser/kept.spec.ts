/** A board that the browser stops keeping or never gives back, or that the server took back. */
import { join } from "node:path";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { newPlayer, type Player } from "../support/player.ts";
import { runHalflap } from "../support/run-halflap.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const notKept = (player: Player) =>
  player.page.getByText("This browser has no room or no right to keep the board.");

test("after the browser threw away what it kept, edits are sent and kept as before", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
  await ada.seesSaved();
  await ada.isKept();
  const browserOf = await ada.context.newCDPSession(ada.page);
  const said = notKept(ada).waitFor(); // for a second, until the database is open again
  await browserOf.send("Storage.clearDataForOrigin", {
    origin: server.address,
    storageTypes: "indexeddb",
  });
  await said;
  await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
  await ada.seesSaved();
  await expect(notKept(ada)).toHaveCount(0);
  await ada.context.setOffline(true);
  await expect(ada.state()).toHaveAttribute("data-state", "offline");
  await ada.typeGrip("lower", 2, "x-3-5-3-4-3");
  await expect(ada.state()).toContainText("1 change kept here");
  await ada.page.reload();
  for (const [index, frets] of ["x-1-3-0-3-x", "3-2-0-0-0-1", "x-3-5-3-4-3"].entries()) {
    await ada.seesGrip("lower", index, frets);
  }
  await ada.context.setOffline(false);
  await ada.seesSaved();
  expect(ada.problems).toEqual([]);
});

/** Leaves an entry in the lower lane's database that ends too early. */
const breakLower = async () => {
  const isLower = (found: IDBDatabaseInfo) => found.name?.endsWith("/lane-lower");
  const name = (await indexedDB.databases()).find(isLower)?.name ?? "";
  await new Promise((done) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => {
      const transaction = opening.result.transaction("updates", "readwrite");
      transaction.objectStore("updates").add(new Uint8Array([1, 1, 200, 7]));
      transaction.oncomplete = done;
    };
  });
  return name;
};

/** What lies in a database beside what is read of it. */
const setAside = (name: string) =>
  new Promise<readonly number[][]>((done) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => {
      const all = opening.result.transaction("custom").objectStore("custom").getAll();
      all.onsuccess = () => done(all.result.map((entry: Uint8Array) => [...entry]));
    };
  });

test("an entry that can't be read is set aside and said, and the rest is there and sent", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const told = ada.page.getByText("This browser can’t read all that it kept of this board");
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
  await ada.seesSaved();
  await ada.isKept();
  await ada.context.setOffline(true);
  await expect(ada.state()).toHaveAttribute("data-state", "offline");
  const name = await ada.page.evaluate(breakLower);
  await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
  await ada.page.reload();
  await ada.seesGrip("lower", 0, "x-1-3-0-3-x");
  await ada.seesGrip("lower", 1, "3-2-0-0-0-1");
  await expect(told).toBeVisible();
  await ada.page.getByRole("button", { name: "Done", exact: true }).click();
  await expect(told).toHaveCount(0);
  await expect(ada.state()).toContainText("1 change kept here");
  expect(await ada.page.evaluate(setAside, name)).toEqual([[1, 1, 200, 7]]);
  await ada.page.reload();
  await ada.seesGrip("lower", 1, "3-2-0-0-0-1");
  await expect(told).toHaveCount(0);
  await ada.context.setOffline(false);
  await ada.seesSaved();
});

test("a browser whose storage never answers opens the board from the server", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
  await ada.seesSaved();
  await ada.page.addInitScript(() => {
    IDBFactory.prototype.open = () => new EventTarget() as IDBOpenDBRequest;
  });
  await ada.page.reload();
  await ada.seesGrip("lower", 0, "x-1-3-0-3-x");
  await ada.seesSaved();
  await expect(notKept(ada)).toBeVisible();
  await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
  await ada.seesSaved();
});

const knownEpoch = (player: Player) =>
  player.page.evaluate(() => /"epoch":\d+/.exec(localStorage.getItem("halflap:boards") ?? "")?.[0]);

test("a restored board opens again; what it lacks now is kept as a copy", async ({ browser }) => {
  const before = await startTestServer();
  const ada = await newPlayer(browser);
  await ada.makeBoard(before.address, "Ada");
  await ada.claim("lower");
  await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
  await ada.seesSaved();
  const backup = join(before.folder, "early.backup");
  expect((await runHalflap(["backup", backup, "--store", before.file])).exit).toBe(0);
  await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
  await ada.seesSaved();
  const epochBefore = await knownEpoch(ada);
  await before.stop();
  expect((await runHalflap(["restore", backup, "--store", before.folder])).exit).toBe(0);
  const variables = { HALFLAP_PORT: new URL(before.address).port };
  const after = await startTestServer({ folder: before.folder, variables });
  try {
    await expect(ada.state()).toHaveAttribute("data-state", "closed");
    await expect.poll(() => knownEpoch(ada)).not.toBe(epochBefore);
    await ada.page.reload();
    await ada.seesGrip("lower", 0, "x-1-3-0-3-x");
    await expect(ada.slot("lower", 1).locator(".fret-string")).toHaveCount(0);
    const download = ada.page.waitForEvent("download");
    await ada.page.getByRole("button", { name: "Take my copy" }).click();
    const stream = await (await download).createReadStream();
    expect(Buffer.concat(await stream.toArray()).toString()).toContain("3-2-0-0-0-1");
    await ada.page.getByRole("button", { name: "Done", exact: true }).click();
    await ada.typeGrip("lower", 1, "x-3-5-3-4-3");
    await ada.seesSaved();
  } finally {
    await removeTestServer(after);
  }
});
