/** Takes where something is in the way: the server, the microphone, a small screen. */
import { demoSolution } from "@halflap/board/demo";
import { type Browser, expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { type Duo, openDuo } from "../support/duo.ts";
import { faults } from "../support/page-faults.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import {
  beepingMicrophone,
  button,
  entry,
  keep,
  openTakes,
  record,
  sign,
  slat,
  takes,
  takesTimeout,
} from "../support/takes-page.ts";

test.use({ launchOptions: beepingMicrophone });
test.describe.configure({ timeout: takesTimeout });

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const openDemo = (browser: Browser, permissions: string[] = ["microphone"]): Promise<Duo> =>
  openDuo(browser, server.address, demoSolution(), { reducedMotion: "reduce", permissions });

test("a take waits in the browser while the server is away, also over a reload", async ({
  browser,
}) => {
  const { lower, upper } = await openDemo(browser);
  const { page } = lower;
  await openTakes(page);
  await record(page);
  const isTakes = (url: URL) => url.pathname.endsWith("/takes");
  await page.route(isTakes, (route) => route.abort());
  await keep(page, "Kept here");
  await expect(entry(page)).toContainText("Kept in this browser until the server is in reach.");
  await page.unroute(isTakes);
  await page.reload();
  // Nothing is opened: what waits is sent by itself.
  await expect(sign(page, 2)).toHaveAttribute("title", /^Kept here: Ada, /);
  await expect(sign(upper.page, 2)).toBeVisible();
  expect(lower.problems).toEqual([]);
});

test("a take whose answer is lost on the way is on the board once", async ({ browser }) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await openTakes(page);
  await record(page);
  const sent: string[] = [];
  await page.route(
    (url) => url.pathname.endsWith("/takes"),
    async (route) => {
      sent.push(route.request().method());
      await route.fetch();
      await route.abort();
    },
  );
  await keep(page, "Sent once");
  await expect(sign(page, 2)).toBeVisible();
  await expect(takes(page).getByLabel("Hear it with the band: Sent once")).toBeChecked();
  await page.reload();
  await expect(sign(page, 2)).toHaveAttribute("title", /^Sent once: Ada, [^\n]*$/);
  await openTakes(page);
  await expect(entry(page)).toHaveCount(1);
  expect(sent).toEqual(["POST"]);
});

test("without the microphone a sentence says so, and everything else works", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser, []);
  const { page } = lower;
  await openTakes(page);
  await takes(page).getByRole("button", { name: "Record", exact: true }).click();
  await expect(takes(page)).toContainText("The browser was told not to give the microphone here.");
  await expect(takes(page).getByRole("button", { name: "Record", exact: true })).toBeEnabled();
  await button(page, "Play").click();
  await expect(page.locator(".heard-bar")).toBeVisible();
  await button(page, "Stop").click();
  await page.evaluate(() => {
    Object.defineProperty(navigator, "mediaDevices", { value: undefined });
  });
  await takes(page).getByRole("button", { name: "Record", exact: true }).click();
  await expect(takes(page)).toContainText("This browser can’t record.");
  expect(lower.problems).toEqual([]);
});

for (const colorScheme of ["light", "dark"] as const) {
  test(`on a phone takes fit, are accessible and large enough, in ${colorScheme}`, async ({
    browser,
  }) => {
    const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
    const { lower } = await openDuo(browser, server.address, demoSolution(), {
      ...phone,
      colorScheme,
      reducedMotion: "reduce",
      permissions: ["microphone"],
    });
    const { page } = lower;
    const isFine = async () => {
      expect(await faults(page)).toEqual([]);
      const small = await takes(page)
        .locator("button, input:not([type=checkbox]), label:has(input)")
        .evaluateAll((all) =>
          all
            .filter((each) => Math.round(each.getBoundingClientRect().height) < 44)
            .map((each) => each.outerHTML.slice(0, 80)),
        );
      expect(small).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    };
    await openTakes(page);
    await isFine();
    await record(page);
    await isFine();
    await keep(page, "A name that is rather long for a phone");
    await slat(page).getByRole("slider", { name: "Tempo" }).fill("100");
    await expect(entry(page)).toContainText("Recorded at 156 a minute");
    await isFine();
  });
}
