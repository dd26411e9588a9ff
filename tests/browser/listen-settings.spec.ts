/** Swing, foot pedal, one part alone, pointing, sections outside the form, and the Opus file. */
import { readFileSync } from "node:fs";
import { demoSolution } from "@halflap/board/demo";
import { type Browser, expect, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { type Duo, openDuo } from "../support/duo.ts";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const openDemo = (browser: Browser): Promise<Duo> =>
  openDuo(browser, server.address, demoSolution(), { reducedMotion: "reduce" });
const slat = (page: Page) => page.getByRole("region", { name: "Listening" });
const button = (page: Page, name: string) => slat(page).getByRole("button", { name, exact: true });
const place = (page: Page) => slat(page).locator(".listen-place");
const heard = (page: Page) => page.locator(".heard-bar");
const more = async (page: Page) =>
  slat(page)
    .getByRole("button", { name: /^(More|Close)/ })
    .click();
const pedalKey = (page: Page, action: string) =>
  slat(page).getByRole("button", { name: new RegExp(`^${action}: .*Learn a key$`) });

async function learn(page: Page, action: string, key: string): Promise<void> {
  await pedalKey(page, action).click();
  await expect(pedalKey(page, action)).toHaveText("Press the pedal now");
  await page.keyboard.press(key);
}

test("how far it swings is set by ear, and goes back to two to one", async ({ browser }) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada");
  await more(ada.page);
  const swing = slat(ada.page).getByRole("slider", { name: "Swing", exact: true });
  await expect(swing).toHaveAttribute("aria-valuetext", "67 %, 2 to 1");
  await swing.fill("36");
  await expect(swing).toHaveAttribute("aria-valuetext", "75 %, 3 to 1");
  await slat(ada.page)
    .getByRole("button", { name: /: 2 to 1$/ })
    .click();
  await expect(swing).toHaveAttribute("aria-valuetext", "67 %, 2 to 1");
  expect(ada.problems).toEqual([]);
});

test("a board on which nothing swings says so", async ({ browser }) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada", "F, 100\n\nA\n| F7 | Bb7 |");
  await more(ada.page);
  await expect(slat(ada.page).getByRole("slider", { name: "Swing", exact: true })).toBeDisabled();
  await expect(slat(ada.page)).toContainText("Nothing on this board swings.");
});

test("a pedal is learnt, works the board, keeps quiet while one writes, and is kept", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await more(page);
  await slat(page).getByLabel("Count in first").uncheck();
  await learn(page, "Next section or loop", "PageDown");
  await learn(page, "The one before", "PageUp");
  await learn(page, "Play, or stop", "b");
  await expect(pedalKey(page, "Play, or stop")).toHaveText("b");
  await more(page);
  await page.keyboard.press("PageDown");
  await expect(place(page)).toHaveText("From bar 5, Verse");
  await page.keyboard.press("PageUp");
  await expect(place(page)).toHaveText("From bar 1, Intro");
  await page.keyboard.press("b");
  await expect(place(page)).toHaveText("Bar 1, Intro");
  await page.keyboard.press("PageDown");
  await expect(place(page)).toHaveText("Bar 5, Verse");
  await page.keyboard.press("b");
  await expect(button(page, "Play")).toBeVisible();
  // With a loop, the pedal moves the loop.
  const loop = slat(page).getByLabel("Round and round");
  await loop.selectOption({ label: "Intro" });
  await page.locator(".chord-cell").first().focus();
  await page.keyboard.press("PageDown");
  await expect(loop.locator("option:checked")).toHaveText("Verse");
  // In a field the keys belong to the field.
  await lower.slot("lower", 0).click();
  const field = page.getByRole("textbox", { name: "Grip", exact: true });
  await field.press("PageDown");
  await field.press("b");
  await expect(button(page, "Play")).toBeVisible();
  await expect(loop.locator("option:checked")).toHaveText("Verse");
  await page.reload();
  await lower.seesBoard();
  await page.locator(".chord-cell").first().focus();
  await page.keyboard.press("b");
  await expect(button(page, "Stop")).toBeVisible();
  await more(page);
  await slat(page).getByRole("button", { name: "Forget the key: Play, or stop" }).click();
  await expect(pedalKey(page, "Play, or stop")).toHaveText("None yet");
  expect(lower.problems).toEqual([]);
});

test("one part is heard alone, and then those who were heard before", async ({ browser }) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await more(page);
  const isHeard = (name: string) => slat(page).getByRole("checkbox", { name, exact: true });
  await isHeard("Bass").uncheck();
  await button(page, "Drums alone").click();
  await expect(isHeard("Drums")).toBeChecked();
  for (const name of ["Upper lane", "Lower lane, yours", "Bass"]) {
    await expect(isHeard(name)).not.toBeChecked();
  }
  await button(page, "Drums alone").click();
  await expect(isHeard("Upper lane")).toBeChecked();
  await expect(isHeard("Bass")).not.toBeChecked();
});

test("a section that the form leaves out is played on its own, and it says so", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const chart = "F, 240\n\nA\n| F7 | Bb7 |\n\nB\n| C7 | F7 |\n\nForm: A";
  await ada.makeBoard(server.address, "Ada", chart);
  await more(ada.page);
  await slat(ada.page).getByLabel("Count in first").uncheck();
  await more(ada.page);
  await ada.page.locator(".chord-cell").nth(2).focus();
  await expect(place(ada.page)).toHaveText("From bar 3, B, on its own: not in the form");
  await ada.page.keyboard.press("Space");
  await expect(place(ada.page)).toHaveText("Bar 3, B, on its own: not in the form");
  await expect(place(ada.page)).toHaveText("Bar 4, B, on its own: not in the form");
  // The tune ends with the section.
  await expect(button(ada.page, "Play")).toBeVisible();
  expect(ada.problems).toEqual([]);
});

test("what one rests on is heard once it is switched on, and not while it plays", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await lower.slot("lower", 1).click();
  const candidate = page.locator(".candidate-item").nth(2);
  await more(page);
  const pointing = slat(page).getByLabel("Hear what I point at");
  await pointing.selectOption({ label: "Only its own lane" });
  await more(page);
  await expect(button(page, "Play")).toBeVisible();
  await candidate.hover();
  await expect(heard(page)).toBeVisible();
  await expect(place(page)).toHaveText("Bar 2, Intro");
  await expect(heard(page)).toHaveCount(0);
  // With the keys as with the mouse: the slot that is walked to.
  await page.locator(".state-line").first().hover();
  await lower.slot("lower", 1).focus();
  await page.keyboard.press("ArrowLeft");
  await expect(place(page)).toHaveText("Bar 1, Intro");
  await expect(button(page, "Play")).toBeVisible();
  // The board itself goes before it.
  await page.locator(".chord-cell").nth(4).focus();
  await page.keyboard.press("Space");
  await expect(place(page)).toHaveText("Counting in");
  await candidate.hover();
  await expect(place(page)).toHaveText(/^Bar 5, Verse/);
  await page.keyboard.press("Space");
  await expect(button(page, "Play")).toBeVisible();
  expect(lower.problems).toEqual([]);
});

test("an Opus file is as long as it should be, in stereo, and can be left half-way", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await more(page);
  await slat(page).getByLabel("Count in first").uncheck();
  await button(page, "Save as Opus").click();
  await button(page, "Cancel").click();
  await expect(button(page, "Save as Opus")).toBeEnabled();
  await slat(page).getByLabel("Round and round").selectOption({ label: "Intro" });
  await slat(page).getByRole("slider", { name: "Tempo" }).fill("150");
  const coming = page.waitForEvent("download");
  await button(page, "Save as Opus").click();
  // Behind the closed drawer it is made all the same.
  await more(page);
  const download = await coming;
  expect(download.suggestedFilename()).toBe("paper-ferry-home-intro-150.opus");
  const file = readFileSync(await download.path());
  const decoded = await page.evaluate(async (text) => {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const context = new OfflineAudioContext(2, 1, 48_000);
    const sound = await context.decodeAudioData(bytes.buffer);
    const sides = [0, 1].map((side) => sound.getChannelData(side));
    const onset = Math.min(...sides.map((side) => side.findIndex((x) => Math.abs(x) > 0.02)));
    const energy = sides.map((side) => side.reduce((sum, x) => sum + x * x, 0) / side.length);
    return { channels: sound.numberOfChannels, length: sound.length, onset, energy };
  }, file.toString("base64"));
  // Four bars of four beats, 104 a minute and half as fast again, and two seconds of ringing.
  const samples = Math.ceil(((4 * 4 * 60) / (104 * 1.5) + 2) * 48_000);
  expect(decoded.channels).toBe(2);
  expect(Math.abs(decoded.length - samples)).toBeLessThanOrEqual(960);
  // The first beat is at the start: what the encoder puts before it is left out.
  expect(decoded.onset).toBeLessThan(480);
  for (const side of decoded.energy) expect(side).toBeGreaterThan(1e-4);
  // Far smaller than the same as WAV.
  expect(file.length * 6).toBeLessThan(samples * 4);
  expect(lower.problems).toEqual([]);
});
