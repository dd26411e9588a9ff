/** Where no part of the page is kept for later: what is pressed without a network, and after. */
import { demoDraft } from "@halflap/board/demo";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { fitted, introOnly, open } from "../support/fit-panel.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

test("what can't be fetched is said; the board stays, goes on, and gets it later", async ({
  browser,
}) => {
  const { lower: ada } = await openDuo(browser, server.address, demoDraft(), {
    serviceWorkers: "block",
  });
  const { page } = ada;
  const missing = page.getByRole("region", { name: "About what is missing" });
  const button = (name: string | RegExp) => page.getByRole("button", { name });
  await ada.seesSaved();
  await page.waitForLoadState("networkidle"); // the neck is fetched ahead
  await ada.context.setOffline(true);
  await expect(ada.state()).toHaveAttribute("data-state", "offline");

  const presses: readonly (readonly [string, () => Promise<void>])[] = [
    ["a finding", () => page.locator(".finding-words").first().click()],
    ["key and tempo", () => button(/^Key, meter, tempo and feel/).click()],
    [
      "the chart as text",
      async () => {
        await button("More").first().click();
        await button("Chart as text").click();
      },
    ],
    ["the form", () => button("Change the form").click()],
    ["the keys", () => page.locator(".board-keys").click()],
    ["sharing", () => button(/^Share$/).click()],
    ["more of listening", () => page.locator(".listen-open").click()],
    ["how a bar is played", () => page.locator(".playing-strip").first().click()],
    ["the fit", () => button(/^Fit\b/).click()],
  ];
  for (const [what, press] of presses) {
    await test.step(`${what} is missed`, async () => {
      await press();
      await expect(missing.getByRole("alert")).toContainText("could not be fetched");
      await expect(missing).toBeInViewport();
      await expect(ada.slot("lower", 0)).toBeVisible();
      await expect(page.locator(".board")).toHaveAttribute("data-neck", "closed");
      await missing.getByRole("button", { name: "Close" }).click();
      await expect(missing).toHaveCount(0);
    });
  }

  await test.step("the neck, which was fetched ahead, opens", async () => {
    await ada.slot("lower", 0).click();
    await expect(page.getByRole("textbox", { name: "Grip", exact: true })).toBeVisible();
    await page.keyboard.press("Escape");
    await expect(page.locator(".board")).toHaveAttribute("data-neck", "closed");
  });

  await test.step("the board goes on, and is not left while nobody answers", async () => {
    await ada.chords(2).click();
    const field = page.getByRole("textbox", { name: "Chords of bar 2" });
    await field.fill("Db7");
    await field.press("Enter");
    await expect(ada.state()).toContainText(/offline, \d+ changes? kept here/);
    await button(/^Fit\b/).click();
    await missing.getByRole("button", { name: "Try again" }).click();
    await expect(missing).toContainText("still out of reach");
    await expect(ada.chords(2)).toContainText("D♭7");
  });

  await test.step("once the network is back it is there", async () => {
    await ada.context.setOffline(false);
    await missing.getByRole("button", { name: "Try again" }).click();
    await expect(missing).toHaveCount(0);
    await ada.seesBoard();
    await expect(ada.chords(2)).toContainText("D♭7");
    await ada.seesSaved();
    await open(page);
    await introOnly(page);
    await fitted(page);
  });
  expect(ada.problems).toEqual([]);
});
