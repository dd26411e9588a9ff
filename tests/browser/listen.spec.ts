/** The board is played: loaded late, followed, looped, slowed, edited meanwhile, and written. */
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
const more = (page: Page) => slat(page).getByRole("button", { name: /^More/ });
const place = (page: Page) => slat(page).locator(".listen-place");
const heard = (page: Page) => page.locator(".heard-bar");
const tempo = (page: Page) => slat(page).getByRole("slider", { name: "Tempo" });

/** As fast as it goes, and no count-in: what is waited for comes sooner. */
async function hurry(page: Page): Promise<void> {
  await tempo(page).fill("150");
  await more(page).click();
  await slat(page).getByLabel("Count in first").uncheck();
  await slat(page)
    .getByRole("button", { name: /^Close/ })
    .click();
}

/** Every place that is shown from now on, once each time it changes. */
async function writePlacesDown(page: Page): Promise<void> {
  await page.evaluate(() => {
    const places: string[] = [];
    Object.assign(globalThis, { places });
    const where = document.querySelector(".listen-where");
    if (where === null) throw new Error("no place is shown");
    new MutationObserver(() => {
      const text = where.querySelector(".listen-place")?.textContent ?? "";
      if (text !== places.at(-1)) places.push(text);
    }).observe(where, { subtree: true, childList: true, characterData: true });
  });
}
const places = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as { places: string[] }).places);

test("nothing of the sound is loaded before the first press; then the bars are followed", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  const loaded = () =>
    page.evaluate(() =>
      performance
        .getEntriesByType("resource")
        .map(({ name }) => name)
        .filter((name) => /sound-player|player-worklet|conductor-worker|file-worker/.test(name)),
    );
  await expect(place(page)).toHaveText("From bar 1, Intro");
  expect(await loaded()).toEqual([]);
  await hurry(page);
  await writePlacesDown(page);
  await button(page, "Play").click();
  await expect(page.locator(".heard-stroke[data-lane=lower]")).toBeVisible();
  expect((await loaded()).length).toBeGreaterThan(1);
  await expect.poll(async () => (await places(page)).at(-1)).toMatch(/Verse/);
  const bars = (await places(page)).filter((text) => text.startsWith("Bar "));
  expect(bars.slice(0, 5)).toEqual([
    ...[1, 2, 3, 4].map((number) => `Bar ${number}, Intro`),
    "Bar 5, Verse",
  ]);
  // The verse has left what is seen, and the person has not scrolled.
  await expect(heard(page)).toBeInViewport({ ratio: 0.9 });
  await button(page, "Stop").click();
  await expect(heard(page)).toHaveCount(0);
  expect(lower.problems).toEqual([]);
});

test("the space bar plays from where the keys stand, and stops", async ({ browser }) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await hurry(page);
  await page.locator(".chord-cell").nth(6).focus();
  await page.keyboard.press("Space");
  await expect(place(page)).toHaveText("Bar 7, Verse");
  await page.keyboard.press("Space");
  await expect(place(page)).toHaveText("From bar 7, Verse");
  // On a button the space bar means the button.
  await page.getByRole("button", { name: "Keys" }).focus();
  await page.keyboard.press("Space");
  await expect(page.getByRole("dialog")).toContainText("Play, or stop");
  await page.keyboard.press("Escape");
  await expect(button(page, "Play")).toBeVisible();
});

test("bars go round, the tempo changes in place, and the other’s edit is heard", async ({
  browser,
}) => {
  const { lower, upper } = await openDemo(browser);
  const { page } = lower;
  await hurry(page);
  await page.locator(".chord-cell").nth(1).focus();
  const loop = slat(page).getByLabel("Round and round");
  await loop.selectOption({ label: "From bar to bar" });
  await slat(page).getByRole("spinbutton", { name: "to bar" }).fill("3");
  await slat(page).getByRole("spinbutton", { name: "to bar" }).press("Enter");
  await expect(slat(page)).toContainText("Rest hands and ears");
  await writePlacesDown(page);
  await button(page, "Play").click();
  await expect
    .poll(async () => (await places(page)).filter((text) => text === "Bar 2, Intro").length)
    .toBeGreaterThan(1);
  await tempo(page).fill("100");
  await expect(tempo(page)).toHaveAttribute("aria-valuetext", /^100 %/);
  await expect
    .poll(async () => (await places(page)).filter((text) => text === "Bar 3, Intro").length)
    .toBeGreaterThan(2);
  const seen = (await places(page)).filter((text) => text.startsWith("Bar "));
  expect(new Set(seen)).toEqual(new Set(["Bar 2, Intro", "Bar 3, Intro"]));

  await expect(page.locator(".heard-stroke[data-lane=upper]")).toBeVisible();
  for (const bar of [1, 2]) {
    await upper.slot("upper", bar).focus();
    await upper.page.keyboard.press("r");
  }
  await expect(page.locator(".heard-stroke[data-lane=upper]")).toHaveCount(0);
  await expect(page.locator(".heard-stroke[data-lane=lower]")).toBeVisible();
  expect([...lower.problems, ...upper.problems]).toEqual([]);
});

test("a practice file has the right length, is not silent, and leaves me out", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await hurry(page);
  await slat(page).getByLabel("Round and round").selectOption({ label: "Intro" });
  await more(page).click();
  const make = async () => {
    const coming = page.waitForEvent("download");
    await button(page, "Save as WAV").click();
    const download = await coming;
    return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
  };
  await slat(page).getByLabel("Rounds").fill("2");
  await slat(page).getByLabel("Rounds").press("Enter");
  const whole = await make();
  expect(whole.name).toBe("paper-ferry-home-intro-150.wav");
  expect(whole.bytes.toString("latin1", 0, 4)).toBe("RIFF");
  // Twice four bars of four beats, 104 a minute and half as fast again; it goes round.
  const seconds = (2 * 4 * 4 * 60) / (104 * 1.5);
  expect(whole.bytes.length).toBe(44 + 4 * Math.round(seconds * 44_100));
  await button(page, "Without me").click();
  const without = await make();
  expect(without.name).toBe("paper-ferry-home-intro-150-without-me.wav");
  expect(without.bytes.length).toBe(whole.bytes.length);
  expect(energy(whole.bytes)).toBeGreaterThan(1.1 * energy(without.bytes));
  expect(energy(without.bytes)).toBeGreaterThan(1e4);
  expect(lower.problems).toEqual([]);
});

/** Mean square of the 16-bit samples after the header. */
function energy(bytes: Buffer): number {
  let sum = 0;
  for (let at = 44; at + 1 < bytes.length; at += 2) sum += bytes.readInt16LE(at) ** 2;
  return sum / ((bytes.length - 44) / 2);
}

test("where a browser can’t play, it says so and the board stays as it is", async ({ browser }) => {
  const ada = await newPlayer(browser);
  await ada.page.addInitScript(() => {
    Reflect.deleteProperty(globalThis, "AudioWorkletNode");
  });
  await ada.makeBoard(server.address, "Ada");
  await button(ada.page, "Play").click();
  await expect(slat(ada.page)).toContainText("This browser can’t play the board.");
  await expect(button(ada.page, "Play")).toBeEnabled();
  await ada.claim("lower");
  expect(ada.problems).toEqual([]);
});

test("a grip is heard in its bar before it is placed, and nothing is changed", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await lower.slot("lower", 1).click();
  const candidate = page.locator(".candidate-item").nth(1);
  const grip = (await candidate.locator(".fret-string").textContent()) ?? "";
  const before = await lower.slot("lower", 1).locator(".fret-string").textContent();
  await candidate.getByRole("button", { name: `Hear it : ${grip}` }).click();
  await expect(place(page)).toHaveText("Bar 2, Intro");
  await expect(heard(page)).toBeVisible();
  // Once, and then it is quiet again.
  await expect(button(page, "Play")).toBeVisible();
  await expect(heard(page)).toHaveCount(0);
  await expect(lower.slot("lower", 1).locator(".fret-string")).toHaveText(before ?? "");
  expect(lower.problems).toEqual([]);
});

test("when the browser holds the sound back, it says so and goes on when asked", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await page.evaluate(() => {
    const Known = AudioContext;
    const made: AudioContext[] = [];
    class Kept extends Known {
      constructor(options?: AudioContextOptions) {
        super(options);
        made.push(this);
      }
    }
    Object.assign(globalThis, { AudioContext: Kept, made });
  });
  await button(page, "Play").click();
  await expect(heard(page)).toBeVisible();
  await page.evaluate(() => (globalThis as unknown as { made: AudioContext[] }).made[0]?.suspend());
  await expect(slat(page)).toContainText("The browser holds the sound back.");
  await button(page, "Let it sound").click();
  await expect(place(page)).toHaveText(/^Bar [2-4], Intro/);
});

test("on a phone: everything fits, and is large enough for a thumb", async ({ browser }) => {
  const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
  const ada = await newPlayer(browser, phone);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  await more(ada.page).tap();
  const small = await slat(ada.page)
    .locator("button, select, input:not([type=checkbox]), label:has(input)")
    .evaluateAll((all) =>
      all
        .filter((each) => each.getBoundingClientRect().height > 0)
        .filter((each) => Math.round(each.getBoundingClientRect().height) < 44)
        .map((each) => each.outerHTML.slice(0, 80)),
    );
  expect(small).toEqual([]);
  expect(await ada.page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
});
