/** When the browser stops keeping a board, or never gives it back: said, and nothing is lost. */
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { newPlayer, type Player } from "../support/player.ts";
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

/** Leaves an entry in the upper lane's database that ends too early. */
const breakUpper = async () => {
  const isUpper = (found: IDBDatabaseInfo) => found.name?.endsWith("/lane-upper");
  const name = (await indexedDB.databases()).find(isUpper)?.name ?? "";
  await new Promise((done) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => {
      const transaction = opening.result.transaction("updates", "readwrite");
      transaction.objectStore("updates").add(new Uint8Array([1, 1, 200, 7]));
      transaction.oncomplete = done;
    };
  });
};

/** From the next load on no database ever opens. */
const hangOnOpen = async (player: Player) =>
  player.page.addInitScript(() => {
    IDBFactory.prototype.open = () => new EventTarget() as IDBOpenDBRequest;
  });

for (const [what, spoil] of [
  ["holds something unreadable", (player: Player) => player.page.evaluate(breakUpper)],
  ["never answers", hangOnOpen],
] as const) {
  test(`a browser whose storage ${what} opens the board from the server`, async ({ browser }) => {
    const ada = await newPlayer(browser);
    await ada.makeBoard(server.address, "Ada");
    await ada.claim("lower");
    await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
    await ada.seesSaved();
    await spoil(ada);
    await ada.page.reload();
    await ada.seesGrip("lower", 0, "x-1-3-0-3-x");
    await ada.seesSaved();
    await expect(notKept(ada)).toBeVisible();
    await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
    await ada.seesSaved();
  });
}
