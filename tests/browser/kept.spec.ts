/** When the browser stops keeping a board, or never gives it back: said, and nothing is lost. */
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

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
  const notKept = ada.page.getByText("This browser has no room or no right to keep the board.");
  const said = notKept.waitFor(); // for a second, until the database is open again
  await browserOf.send("Storage.clearDataForOrigin", {
    origin: server.address,
    storageTypes: "indexeddb",
  });
  await said;
  await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
  await ada.seesSaved();
  await expect(notKept).toHaveCount(0);
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
