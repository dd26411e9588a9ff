/** A board on paper: what stands on the sheet, in lines for it, and the screen as it was after. */
import { demoSolution } from "@halflap/board/demo";
import { expect, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const onPaper = [
  ".title-field",
  ".settings-line",
  ".form-stretch .form-name",
  ".section-head .heading",
  ".chord-symbol .chord",
  '.lane-row[data-lane="upper"] .fret-string',
  '.lane-row[data-lane="lower"] .fret-string',
  ".grip-diagram",
  ".tab-picture",
  ".step-glyph",
  ".playing-marks",
  '.voice-mark[data-kind="sung"]',
] as const;

const onScreenAlone = [
  ".top-bar .button.main",
  ".top-bar-door",
  ".top-bar .state-line",
  ".presence-row",
  ".form-map .button",
  ".board-fit",
  ".board-keys",
  ".section-head .button",
  ".seam-row",
  ".finding-mark",
  ".presence-tag",
  ".board-side",
  ".listen",
  "dialog",
] as const;

test("a sheet has the tune and both parts, in ink on white, and nothing that is pressed", async ({
  browser,
}) => {
  const look = { colorScheme: "dark" } as const;
  const { lower, upper } = await openDuo(browser, server.address, demoSolution(), look);
  const { page } = lower;
  await upper.slot("upper", 1).click();
  await lower.slot("lower", 1).click();
  await page.locator(".presence-tag").first().waitFor();
  await page.locator(".finding-mark").first().waitFor();
  await page.keyboard.press("?");
  await page.locator("dialog").waitFor();
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  for (const shown of onPaper) await expect(page.locator(shown).first(), shown).toBeVisible();
  for (const hidden of onScreenAlone) await expect(page.locator(hidden).first()).toBeHidden();
  const colours = await page
    .locator(".chord")
    .first()
    .evaluate((chord) => {
      const { backgroundColor } = getComputedStyle(document.documentElement);
      return [getComputedStyle(chord).color, backgroundColor];
    });
  expect(colours).toEqual(["rgb(0, 0, 0)", "rgb(255, 255, 255)"]);
  await expect(page.locator("[data-line]").first()).toHaveCSS("break-inside", "avoid");
  for (const sheetWidth of [718, 740]) {
    await page.setViewportSize({ width: sheetWidth, height: 1000 });
    const isCut = () => document.documentElement.scrollWidth > document.documentElement.clientWidth;
    expect(await page.evaluate(isCut)).toBe(false);
  }
});

test("from a phone too a print has four bars a line, all drawn, and the keys stay", async ({
  browser,
}) => {
  const look = { viewport: { width: 360, height: 740 } };
  const { page } = (await openDuo(browser, server.address, demoSolution(), look)).lower;
  const columns = () => page.locator(".lines").first().getAttribute("data-columns");
  const before = await columns();
  const place = page.locator('.lane-row[data-lane="lower"] .lane-cell').nth(3);
  await place.focus();
  await noteAtPrint(page);
  await page.pdf({ format: "A4" });
  const noted = await page.locator("html").getAttribute("data-printed");
  expect(JSON.parse(noted ?? "")).toEqual({ perLine: "4", lines: 8, drawn: 8 });
  await expect.poll(columns).toBe(before);
  expect(before).not.toBe("4");
  await expect(place).toBeFocused();
});

/** Notes on the page what stands on it when it goes to paper. */
async function noteAtPrint(page: Page): Promise<void> {
  await page.evaluate(() => {
    addEventListener("beforeprint", () => {
      const lines = [...document.querySelectorAll("[data-line]")];
      const drawn = lines.filter((line) => line.querySelector(".step-glyph, .tab-picture"));
      document.documentElement.dataset.printed = JSON.stringify({
        perLine: document.querySelector(".lines")?.getAttribute("data-columns"),
        lines: lines.length,
        drawn: drawn.length,
      });
    });
  });
}
