/** The chart under the hands of its players: bars set aside and back, chords borrowed and not. */
import { expect, test } from "@playwright/test";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

test("a removed bar is known by its chords and comes back to a chosen section", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await ada.makeBoard(server.address, "Ada");
  await ada.chords(2).click();
  await page.getByRole("button", { name: "Remove Bar 2" }).click();
  await expect(ada.chords(2)).toContainText("Cm7");
  await expect(ada.chords(2)).toBeFocused();

  await page.getByLabel("Bring back to the end of").selectOption({ label: "Verse" });
  await page.getByRole("button", { name: "Bring back G7 at the end of Verse" }).click();
  await expect(page.locator(".set-aside")).toHaveCount(0);
  await expect(ada.chords(12)).toContainText("G7");
  await expect(ada.chords(12)).toBeFocused();
  expect(ada.problems).toEqual([]);
});

test("a section plays the chords of another, and its own again", async ({ browser }) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await ada.makeBoard(server.address, "Ada");
  await page.getByRole("button", { name: "Change Verse" }).click();
  const chords = page.getByRole("combobox", { name: "Chords" });
  await chords.selectOption({ label: "of Intro" });
  await expect(page.getByText("4 bars · chords of Intro")).toBeVisible();
  await expect(page.locator(".chord-cell")).toHaveCount(8);
  await chords.selectOption({ label: "its own" });
  await expect(page.locator(".chord-cell")).toHaveCount(12);
  expect(ada.problems).toEqual([]);
});
