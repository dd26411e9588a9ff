/** Apart and together again: both edit the same bars at once, one of them offline. */
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { newPlayer, type Player } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

async function writeBar(player: Player, bar: number, text: string): Promise<void> {
  await player.chords(bar).click();
  const field = player.page.getByRole("textbox", { name: `Chords of bar ${bar}` });
  await field.fill(text);
  await field.press("Enter");
  await expect(field).toHaveCount(0);
}

test("both change the same bars at once, offline and back, and nothing is lost", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  const ben = await newPlayer(browser);
  await ben.join(await ada.link("Player link"), "Ben");
  await ben.claim("upper");
  await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
  await ben.seesGrip("lower", 0, "x-1-3-0-3-x");
  await ben.seesSaved();

  await ben.isKept();
  await ben.context.setOffline(true);
  await expect(ben.state()).toHaveAttribute("data-state", "offline");
  await ben.typeGrip("upper", 0, "x-x-x-7-6-6");
  await writeBar(ben, 2, "G7 . Db7 .");
  await expect(ben.state()).toContainText(/offline, \d+ changes? kept here/);
  await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
  await writeBar(ada, 3, "Cm7 Cm7/Bb");
  await writeBar(ada, 2, "G7(b9)");

  // The page comes back without a server, from what this browser keeps.
  await ben.page.reload();
  await ben.seesGrip("upper", 0, "x-x-x-7-6-6");
  await expect(ben.state()).toContainText(/offline, \d+ changes? kept here/);

  await ben.context.setOffline(false);
  await ben.seesSaved();
  await ada.seesGrip("upper", 0, "x-x-x-7-6-6");
  await ben.seesGrip("lower", 1, "3-2-0-0-0-1");
  await expect(ben.chords(3)).toContainText("Cm7/B♭");
  // Both wrote bar 2: the new slot and the new chord stand side by side.
  await expect(ada.chords(2)).toContainText("D♭7");
  const boards = async (player: Player) =>
    player.page.locator(".chord-cell, .lane-cell .fret-string").allInnerTexts();
  await expect.poll(async () => boards(ben)).toEqual(await boards(ada));
  expect([ada.problems, ben.problems]).toEqual([[], []]);
  await ada.context.close();
  await ben.context.close();
});

test("undo takes back one's own edits only", async ({ browser }) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  const ben = await newPlayer(browser);
  await ben.join(await ada.link("Player link"), "Ben");
  await ben.claim("upper");
  await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
  await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
  await ben.typeGrip("upper", 1, "x-x-x-7-8-7");
  await ada.seesGrip("upper", 1, "x-x-x-7-8-7");
  const undo = ada.page.getByRole("button", { name: "Undo my last change" });
  await undo.click();
  await undo.click();
  await expect(ada.slot("lower", 0).locator(".fret-string")).toHaveCount(0);
  await expect(ben.slot("lower", 1).locator(".fret-string")).toHaveCount(0);
  await ben.seesGrip("upper", 1, "x-x-x-7-8-7");
  await ada.page.getByRole("button", { name: "Do it again" }).click();
  await ben.seesGrip("lower", 0, "x-1-3-0-3-x");
  await ada.context.close();
  await ben.context.close();
});
