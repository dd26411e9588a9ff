/** Findings, their ways out, and what one player offers the other, in two browsers. */
import { demoDraft } from "@halflap/board/demo";
import { expect, type Locator, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import type { Player } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

/** The demo draft's worst place: the upper lane forgot the capo in bar 9, and again in the solo. */
const forgotten = /F7 only as a shape/;
const forgottenTimes = 2;

async function pick(page: Page, words: RegExp): Promise<Locator> {
  const entry = page.locator(".finding", { hasText: words }).first();
  await entry.locator(".finding-words").click();
  await expect(entry.locator(".way").first()).toBeVisible();
  return entry;
}

/** How many findings of a kind the counts above the list name. */
async function countOf(player: Player, kind: "stop" | "fix"): Promise<number> {
  const toggle = player.page.locator(".severity-toggle", {
    has: player.page.locator(`[data-severity="${kind}"]`),
  });
  await expect(toggle).toBeVisible();
  return Number.parseInt((await toggle.textContent()) ?? "", 10);
}

test("a way out is done on the own lane, and undo brings the finding back", async ({ browser }) => {
  const { upper, lower } = await openDuo(browser, server.address, demoDraft());
  const { page } = upper;
  const entry = await pick(page, forgotten);
  const stops = await countOf(upper, "stop");
  await expect(entry.locator(".finding-neck")).toHaveCount(2);
  await expect(entry.locator(".finding-neck .peg[data-picked]").first()).toBeVisible();
  await expect(page.locator(".seam-stretch")).toHaveCount(1);
  const own = entry.locator('.way[data-lane="upper"]').first();
  await expect(own.locator(".way-effect").first()).toContainText("1 stop");
  await own.getByRole("button", { name: /^Do it:/ }).click();
  await expect(upper.finding(forgotten)).toHaveCount(forgottenTimes - 1);
  await expect(page.locator(".settled")).toContainText(forgotten);
  await expect.poll(() => countOf(upper, "stop")).toBe(stops - 1);
  await expect(lower.finding(forgotten)).toHaveCount(forgottenTimes - 1);
  await page.getByRole("button", { name: "Undo my last change" }).click();
  await expect(upper.finding(forgotten)).toHaveCount(forgottenTimes);
  await expect.poll(() => countOf(upper, "stop")).toBe(stops);
  expect([upper.problems, lower.problems]).toEqual([[], []]);
});

test("a way out is offered to the other lane, who takes it; both see the finding go", async ({
  browser,
}) => {
  const { upper, lower } = await openDuo(browser, server.address, demoDraft());
  const entry = await pick(lower.page, forgotten);
  await expect(entry.getByRole("button", { name: /^Do it:/ })).toHaveCount(0);
  await entry.getByRole("button", { name: "Offer it to Ben" }).first().click();
  await expect(entry.getByText("Offered to Ben")).toBeVisible();
  await expect(lower.page.locator(".proposal")).toContainText("Not answered yet.");

  const offered = upper.page.locator(".proposal");
  await expect(offered).toContainText("Ada offers for your part");
  await upper.page.getByRole("button", { name: "Ada offers a change in bar 9" }).click();
  await expect(offered).toBeFocused();
  const after = await offered.locator(".change-after .fret-string").textContent();
  await offered.getByRole("button", { name: /^Take:/ }).click();
  for (const player of [upper, lower]) {
    await expect(player.page.locator(".proposal")).toHaveCount(0);
    await expect(player.finding(forgotten)).toHaveCount(forgottenTimes - 1);
    const cell = player.page.locator(".lane-row[data-lane=upper] .lane-cell", {
      hasText: "Bar 9,",
    });
    await expect(cell.locator(".fret-string")).toHaveText(after ?? "");
  }
  // One step, and the offer does not come back with it.
  await upper.page.getByRole("button", { name: "Undo my last change" }).click();
  await expect(upper.finding(forgotten)).toHaveCount(forgottenTimes);
  await expect(upper.page.locator(".proposal")).toHaveCount(0);
});

test("an offer is taken back, and left", async ({ browser }) => {
  const { upper, lower } = await openDuo(browser, server.address, demoDraft());
  const entry = await pick(lower.page, forgotten);
  const offer = entry.getByRole("button", { name: "Offer it to Ben" }).first();
  await offer.click();
  await expect(upper.page.locator(".proposal")).toHaveCount(1);
  await lower.page.getByRole("button", { name: /^Take back:/ }).click();
  await expect(upper.page.locator(".proposal")).toHaveCount(0);
  await offer.click();
  await upper.page.getByRole("button", { name: /^Leave:/ }).click();
  await expect(lower.page.locator(".proposal")).toHaveCount(0);
  await expect(lower.finding(forgotten)).toHaveCount(forgottenTimes);
});

test("a finding of any rule is silenced with a reason, and brought back", async ({ browser }) => {
  const { upper, lower } = await openDuo(browser, server.address, demoDraft());
  const { page } = lower;
  const strum = /very same strokes/;
  const before = await page.locator(".finding", { hasText: strum }).count();
  const entry = await pick(page, strum);
  await entry.getByRole("button", { name: "Live with it…" }).click();
  await entry.getByLabel("Why it may stay").fill("The hook needs it");
  await entry.getByRole("button", { name: "Keep it quiet" }).click();
  for (const player of [lower, upper]) {
    await expect(player.finding(strum)).toHaveCount(before - 1);
    await player.page.locator(".silenced summary").click();
    await expect(player.page.locator(".silenced")).toContainText("The hook needs it");
  }
  await page.locator(".silenced").getByRole("button", { name: "Bring back" }).click();
  await expect(upper.finding(strum)).toHaveCount(before);
});

test("a limit of one's own reaches the other browser, and its findings follow", async ({
  browser,
}) => {
  const { upper, lower } = await openDuo(browser, server.address, demoDraft());
  const strum = /very same strokes/;
  await expect(upper.finding(strum).first()).toBeVisible({ timeout: 30_000 });
  const before = await upper.finding(strum).count();
  const limit = async ({ page }: Player) => {
    await page.getByRole("button", { name: /^Key, meter, tempo and feel/ }).click();
    await page.getByRole("button", { name: "How strict the checker is…" }).click();
    await page.getByRole("dialog").getByText("Strumming together").click();
    return page.getByRole("spinbutton", { name: "bars in a row that make it a fix" });
  };
  const field = await limit(lower);
  await field.fill("99");
  await field.press("Enter");
  // Beyond its range it goes as far as it may.
  await expect(field).toHaveValue("16");
  await expect(upper.finding(strum)).toHaveCount(0);
  await expect(await limit(upper)).toHaveValue("16");
  await upper.page.getByRole("button", { name: "All as they come" }).click();
  await expect(field).toHaveValue("2");
  await upper.page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
  await expect(upper.finding(strum)).toHaveCount(before);
});

test("without its checking worker the page checks, and seeks ways out, by itself", async ({
  browser,
}) => {
  const { upper } = await openDuo(browser, server.address, demoDraft(), {
    serviceWorkers: "block",
  });
  const { page } = upper;
  await page.route(/check-worker/, (route) => route.abort());
  await page.reload();
  await expect(upper.finding(forgotten)).toHaveCount(forgottenTimes);
  await pick(page, forgotten);
});
