/** No serious fault that axe can find: door, board, neck and share, by day and by night. */
import { demoDraft } from "@halflap/board/demo";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { faults } from "../support/page-faults.ts";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

for (const colorScheme of ["light", "dark"] as const) {
  test(`door, board, neck and share are accessible in ${colorScheme}`, async ({ browser }) => {
    const ada = await newPlayer(browser, { colorScheme, reducedMotion: "reduce" });
    const { page } = ada;
    await page.goto(server.address);
    await expect(page.getByRole("heading", { name: "A new board" })).toBeVisible();
    expect(await faults(page)).toEqual([]);
    await ada.makeBoard(server.address, "Ada");
    expect(await faults(page)).toEqual([]);
    await ada.claim("lower");
    await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
    await expect(page.locator(".candidate").first()).toBeVisible();
    expect(await faults(page)).toEqual([]);
    await page.getByRole("button", { name: "Share", exact: true }).click();
    await expect(page.getByRole("heading", { name: "Members" })).toBeVisible();
    expect(await faults(page)).toEqual([]);
  });
}

test("a picked finding, its ways out, an offer and the limits are accessible", async ({
  browser,
}) => {
  const { lower, upper } = await openDuo(browser, server.address, demoDraft(), {
    reducedMotion: "reduce",
  });
  const { page } = lower;
  await page.locator(".finding-words", { hasText: "F7 only as a shape" }).first().click();
  await page.getByRole("button", { name: "Offer it to Ben" }).first().click();
  expect(await faults(page)).toEqual([]);
  await expect(upper.page.locator(".proposal")).toBeVisible();
  expect(await faults(upper.page)).toEqual([]);
  await page.getByRole("button", { name: /^Key, meter, tempo and feel/ }).click();
  await page.getByRole("button", { name: "How strict the checker is…" }).click();
  await page.getByRole("dialog").getByText("Hands", { exact: true }).click();
  expect(await faults(page)).toEqual([]);
});

test("axe itself finds a fault where there is one", async ({ page }) => {
  await page.setContent(
    "<html lang=en><title>Door</title><main><h1>Door</h1><button></button></main></html>",
  );
  expect(await faults(page)).toEqual([expect.stringContaining("button-name")]);
});
