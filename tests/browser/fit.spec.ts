/** Parts worked out on the page: asked, compared, looked at, taken, offered, and let go of. */
import { demoDraft } from "@halflap/board/demo";
import { type Browser, expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { type Duo, openDuo } from "../support/duo.ts";
import {
  fitted,
  gripsOf,
  introOnly,
  number,
  open,
  panel,
  patience,
  row,
  seesGrips,
  start,
  tried,
} from "../support/fit-panel.ts";
import { faults } from "../support/page-faults.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

test.describe.configure({ timeout: 150_000 });

const openDemo = (browser: Browser, options: Parameters<typeof openDuo>[3] = {}): Promise<Duo> =>
  openDuo(browser, server.address, demoDraft(), { reducedMotion: "reduce", ...options });

test("the lower lane is fitted around the upper, looked at, put away, taken and undone", async ({
  browser,
}) => {
  const { lower, upper } = await openDemo(browser);
  const { page } = lower;
  const before = await gripsOf(page, "lower");
  const others = await gripsOf(page, "upper");

  await test.step("nothing of the fit is loaded before it is opened", async () => {
    const loaded = await page.evaluate(() =>
      performance
        .getEntriesByType("resource")
        .map(({ name }) => name)
        .filter((name) => /FitPanel|fit-worker|kernel/.test(name)),
    );
    expect(loaded).toEqual([]);
  });
  await open(page);
  await expect(panel(page).getByLabel("Mine around Ben’s")).toBeChecked();
  await fitted(page);

  await test.step("costs, findings and differences stand side by side", async () => {
    const total = await row(page, "Altogether").getByRole("cell").allTextContents();
    const [now, first, ...more] = total.map(Number);
    expect(first).toBeLessThan(now ?? 0);
    for (const other of more) expect(other).toBeGreaterThanOrEqual(first ?? 0);
    const causes = panel(page).getByRole("button", { name: /smaller cause/ });
    if (await causes.isVisible()) await causes.click();
    const sums = await panel(page).locator("tr:has(.fit-cost) td:nth-child(3)").allTextContents();
    const sum = sums.map(Number).reduce((one, other) => one + other, 0);
    expect(Math.abs(sum - (first ?? 0))).toBeLessThan(1);
    await expect(row(page, "Findings left")).toContainText("fix");
    await expect(row(page, "Hardest bar").getByRole("button").first()).toContainText("bar");
  });

  await test.step("an answer lies on the board and is not there", async () => {
    await number(page, 1).click();
    await expect(tried(page, "lower").first()).toBeVisible();
    await expect(tried(page, "upper")).toHaveCount(0);
    const first = tried(page, "lower").first();
    await expect(first.locator(".grip-before")).toHaveText(before[0] ?? "");
    await expect(first).toContainText("would be");
    await expect(page.locator(".seam-cell[data-tried]").first()).toBeVisible();
    await seesGrips(upper, "lower", before);
    await page.keyboard.press("Escape");
    await expect(tried(page, "lower")).toHaveCount(0);
    await seesGrips(lower, "lower", before);
    await expect(panel(page)).toBeVisible();
  });

  await test.step("taken in one step that undo takes back", async () => {
    await number(page, 1).click();
    await expect(tried(page, "lower").first()).toBeVisible();
    const then = await gripsOf(page, "lower");
    expect(then).not.toEqual(before);
    await panel(page).getByRole("button", { name: "Take it into my part" }).click();
    await expect(tried(page, "lower")).toHaveCount(0);
    await expect(panel(page)).toContainText("Undo takes it back.");
    await expect(start(page)).toBeFocused();
    await seesGrips(upper, "lower", then);
    await seesGrips(upper, "upper", others);
    await page.getByRole("button", { name: "Undo my last change" }).click();
    await seesGrips(upper, "lower", before);
  });
  expect([lower.problems, upper.problems]).toEqual([[], []]);
});

test("both, made whole: mine taken, the other’s offered and taken, nothing grave left", async ({
  browser,
}) => {
  const { lower, upper } = await openDemo(browser);
  const { page } = lower;
  await open(page);
  await panel(page).getByLabel("Both together").check();
  await fitted(page);
  await number(page, 1).click();
  await expect(tried(page, "upper").first()).toBeVisible();
  const mine = await gripsOf(page, "lower");
  const theirs = await gripsOf(page, "upper");
  await panel(page).getByText("What grips can’t cure").click();
  await panel(page).getByRole("button", { name: "Look for it" }).click();
  await expect(panel(page).locator(".fit-list li").first()).toBeVisible(patience);
  await panel(page).getByLabel("Take these along").check();
  await panel(page).getByRole("button", { name: "Take my part, offer Ben the other" }).click();
  await seesGrips(upper, "lower", mine);
  const offer = upper.page.locator(".proposal");
  await expect(offer).toContainText("Ada offers for your part");
  await expect(offer).toContainText("A fit of both parts, as it comes:");
  await offer.getByRole("button", { name: /^Take:/ }).click();
  for (const player of [lower, upper]) {
    await seesGrips(player, "upper", theirs);
    for (const severity of ["stop", "fix"]) {
      const marks = player.page.locator(`.findings .severity-counts [data-severity="${severity}"]`);
      await expect(marks).toHaveCount(0);
    }
  }
  expect([lower.problems, upper.problems]).toEqual([[], []]);
});

test("wishes are seen across, a lock holds, impossible wishes are let go of", async ({
  browser,
}) => {
  const { lower, upper } = await openDemo(browser);
  const { page } = lower;
  const before = await gripsOf(page, "lower");
  await lower.slot("lower", 0).click();
  await page.getByRole("button", { name: "Lock for the fit" }).click();
  await expect(lower.slot("lower", 0)).toContainText("locked");
  await open(page);
  const wishes = panel(page).getByText("My wishes");
  await wishes.click();
  await panel(page).getByRole("button", { name: "4-3-2", exact: true }).click();
  await expect(panel(page)).toContainText("strings 4-3-2, 1 slot locked");
  await open(upper.page);
  await expect(panel(upper.page)).toContainText("strings 4-3-2, 1 slot locked");

  await fitted(page);
  await number(page, 1).click();
  await expect(tried(page, "lower").first()).toBeVisible();
  const then = await gripsOf(page, "lower");
  expect(then[0]).toBe(before[0]);
  for (const grip of then.slice(1)) expect(grip).toMatch(/^x-x-\d+-\d+-\d+-x$/);

  await test.step("no grip lies on these strings behind the last fret but one", async () => {
    await panel(page).getByLabel("Highest fret").selectOption({ label: "fret 1" });
    const trouble = panel(page).getByRole("region", { name: "These wishes can’t hold together" });
    await expect(trouble).toBeVisible(patience);
    await expect(tried(page, "lower")).toHaveCount(0);
    await trouble.getByRole("button", { name: "Let go of: the highest fret" }).click();
    await expect(trouble).toHaveCount(0, patience);
    await expect(number(page, 1)).toBeVisible(patience);
    await expect(panel(page).getByLabel("Highest fret")).toHaveValue("0");
  });
  expect([lower.problems, upper.problems]).toEqual([[], []]);
});

test("what takes long says so and is stopped; the next one works", async ({ browser }) => {
  const { lower } = await openDemo(browser, { serviceWorkers: "block" });
  const { page, context } = lower;
  const kernel = "**/kernel-*.wasm";
  // The product never comes: the work takes for ever.
  await context.route(kernel, () => {});
  await open(page);
  await start(page).click();
  await expect(panel(page).getByRole("progressbar")).toBeVisible();
  await panel(page).getByRole("button", { name: "Cancel" }).click();
  await expect(panel(page)).toContainText("Stopped. Nothing was changed.");
  await expect(panel(page).getByRole("progressbar")).toHaveCount(0);
  await context.unroute(kernel);
  // Without the product, plain script does the same.
  await context.route(kernel, (route) => route.abort());
  await introOnly(page);
  await fitted(page);
  await number(page, 1).click();
  await expect(tried(page, "lower").first()).toBeVisible();
  expect(await tried(page, "lower").count()).toBeLessThanOrEqual(4);
});

test("by keyboard alone: opened, fitted, looked at, asked why, taken", async ({ browser }) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  const { keyboard } = page;
  await lower.slot("lower", 1).focus();
  await keyboard.press("f");
  await expect(start(page)).toBeFocused();
  await panel(page).locator("summary", { hasText: "How" }).focus();
  await keyboard.press("Enter");
  await panel(page).getByLabel("Whole tune").focus();
  await keyboard.press("ArrowRight");
  await expect(panel(page).getByRole("button", { name: "Intro", exact: true })).toHaveAttribute(
    "aria-pressed",
    "true",
  );
  await start(page).focus();
  await keyboard.press("Enter");
  await expect(number(page, 1)).toBeVisible(patience);
  await keyboard.press("Tab");
  await expect(number(page, 1)).toBeFocused();
  await keyboard.press("Tab");
  await keyboard.press("Enter");
  await expect(number(page, 2)).toHaveAttribute("aria-pressed", "true");
  await expect(tried(page, "lower").first()).toBeVisible();
  await panel(page).locator("summary", { hasText: "Why this one?" }).focus();
  await keyboard.press("Enter");
  await expect(panel(page).locator(".fit-picked")).toContainText("B♭7 in bar 2");
  await expect(panel(page).locator(".fit-other").first()).toContainText(/would cost/, patience);
  await panel(page).getByRole("button", { name: "Take it into my part" }).focus();
  await keyboard.press("Enter");
  await expect(panel(page)).toContainText("Undo takes it back.");
  await keyboard.press("Escape");
  await expect(panel(page)).toHaveCount(0);
  await expect(lower.slot("lower", 1)).toBeFocused();
});

test("on a phone the board stays in sight above the sheet, and nothing is cut off", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser, {
    viewport: { width: 390, height: 844 },
    hasTouch: true,
  });
  const { page } = lower;
  await open(page);
  await introOnly(page);
  await fitted(page);
  await number(page, 2).click();
  const first = tried(page, "lower").first();
  await expect(first).toBeInViewport({ ratio: 0.9 });
  const [cell, sheet] = [await first.boundingBox(), await panel(page).boundingBox()];
  expect((cell?.y ?? 0) + (cell?.height ?? 0)).toBeLessThanOrEqual((sheet?.y ?? 0) + 1);
  const widths = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  expect(widths[0]).toBeLessThanOrEqual(widths[1] ?? 0);
  const take = panel(page).getByRole("button", { name: "Take it into my part" });
  await take.scrollIntoViewIfNeeded();
  await expect(take).toBeInViewport();
});

for (const colorScheme of ["light", "dark"] as const) {
  test(`the fit is accessible in ${colorScheme}`, async ({ browser }) => {
    const { lower } = await openDemo(browser, { colorScheme });
    const { page } = lower;
    await lower.slot("lower", 0).click();
    await page.getByRole("button", { name: "Lock for the fit" }).click();
    await open(page);
    await panel(page).getByText("My wishes").click();
    await introOnly(page);
    await fitted(page);
    await number(page, 1).click();
    await panel(page).getByText("What grips can’t cure").click();
    await panel(page).getByText("Why this one?").click();
    // Where the keys stand now, the grip is locked: another slot has others to choose from.
    await lower.slot("lower", 1).click();
    await expect(panel(page).locator(".fit-other").first()).toBeVisible(patience);
    expect(await faults(page)).toEqual([]);
  });
}
