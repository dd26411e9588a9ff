/** Takes: recorded over the band, kept, heard by the other at the right moment, and removed. */
import { demoSolution } from "@halflap/board/demo";
import { apiPath, type BoardId } from "@halflap/wire/api";
import { type Browser, expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { type Duo, openDuo } from "../support/duo.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { hearsItself, type Start, seen, watchSources } from "../support/sources-watched.ts";
import {
  beepingMicrophone,
  button,
  entry,
  keep,
  onlyTake,
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

const openDemo = (browser: Browser): Promise<Duo> =>
  openDuo(browser, server.address, demoSolution(), {
    reducedMotion: "reduce",
    permissions: ["microphone"],
  });

test("a take is recorded and kept; the other hears it in its bars, and it goes for both", async ({
  browser,
}) => {
  const { lower, upper } = await openDemo(browser);
  const loaded = () =>
    lower.page.evaluate(() =>
      performance.getEntriesByType("resource").filter(({ name }) => /TakesPart/.test(name)),
    );
  expect(await loaded()).toEqual([]);
  await openTakes(lower.page);
  expect(await loaded()).not.toEqual([]);
  await expect(takes(lower.page)).toContainText("Wear headphones");
  await record(lower.page);
  await keep(lower.page, "First idea");
  await expect(entry(lower.page)).toContainText("Ada, bars 2 to 3");
  await expect(takes(lower.page).getByLabel("Hear it with the band: First idea")).toBeChecked();
  const take = await onlyTake(lower.page);
  expect(take).toMatchObject({ name: "First idea", type: "audio/webm" });
  expect(take.bars).toHaveLength(2);
  // A bar is counted in before the first beat, and two seconds ring after the last.
  const barMs = (4 * 60_000) / (104 * 1.5);
  expect(take.tempo).toBeCloseTo(156, 6);
  expect(take.offsetMs).toBeGreaterThan(barMs);
  expect(take.lengthMs).toBeGreaterThan(2 * barMs);
  expect(take.lengthMs).toBeLessThan(2 * barMs + 3000);

  await test.step("the other sees it at its bar, and why it can't be played", async () => {
    const { page } = upper;
    await expect(sign(page, 2)).toHaveAttribute("title", /^First idea: Ada, /);
    await expect(sign(page, 1)).toHaveCount(0);
    await openTakes(page);
    const box = takes(page).getByLabel("Hear it with the band: First idea");
    await expect(box).toBeDisabled();
    await expect(entry(page)).toContainText("Recorded at 156 a minute");
    await entry(page).getByRole("button", { name: "Play at 156" }).click();
    await box.check();
    await expect(entry(page)).not.toContainText("Being fetched");
  });

  await test.step("it sounds when its bars come up, round after round, and stops", async () => {
    const { page } = upper;
    await slat(page).getByLabel("Count in first").uncheck();
    await slat(page).getByLabel("Round and round").selectOption({ label: "From bar to bar" });
    for (const [label, bar] of [
      ["From bar", "1"],
      ["to bar", "2"],
    ] as const) {
      const field = slat(page).locator(".listen-bars").getByLabel(label, { exact: true });
      await field.fill(bar);
      await field.press("Enter");
    }
    await watchSources(page);
    await button(page, "Play").click();
    await expect(entry(page)).toHaveAttribute("data-sounding", "");
    await expect.poll(async () => (await seen(page)).level).toBeGreaterThan(0.02);
    await expect.poll(async () => (await seen(page)).starts.length).toBeGreaterThan(1);
    const { starts, bar2 } = await seen(page);
    const [first, second] = starts;
    if (first === undefined || second === undefined) throw new Error("nothing was started");
    const leadSeconds = 0.12;
    expect(first.offset).toBeCloseTo(take.offsetMs / 1000 - leadSeconds, 3);
    // Two bars a round, to the sample: 8 beats at 156 a minute.
    const sample = 1 / 44_100;
    expect(Math.abs(second.when - first.when - (8 * 60) / 156)).toBeLessThan(1.5 * sample);
    // The take's first beat is the band's first beat of its bar, to the sample.
    expect(Math.abs((bar2 ?? Number.NaN) - first.when - leadSeconds)).toBeLessThan(1.5 * sample);
    // The first bar of the take only: the second is not in the loop.
    expect(first.length).toBeCloseTo(leadSeconds + (4 * 60) / 156, 3);
    await button(page, "Stop").first().click();
    await expect(entry(page)).not.toHaveAttribute("data-sounding", "");
    await expect.poll(async () => (await seen(page)).level).toBe(0);
  });

  await test.step("it is there after a reload, and goes for both", async () => {
    await lower.page.reload();
    await lower.seesBoard();
    await expect(sign(lower.page, 2)).toBeVisible();
    await expect(entry(upper.page).getByRole("button", { name: "Remove" })).toHaveCount(0);
    await openTakes(lower.page);
    await entry(lower.page).getByRole("button", { name: "Remove" }).click();
    await entry(lower.page).getByRole("button", { name: "Really remove?" }).click();
    for (const { page } of [lower, upper]) {
      await expect(sign(page, 2)).toHaveCount(0);
      await expect(entry(page)).toHaveCount(0);
    }
  });
  expect([...lower.problems, ...upper.problems]).toEqual([]);
});

test("the first beat lies in the recording where the take says", async ({ browser }) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await hearsItself(page);
  await openTakes(page);
  for (const part of ["Upper lane", "Lower lane, yours", "Bass", "Drums"]) {
    await slat(page).getByRole("checkbox", { name: part }).uncheck();
  }
  await slat(page).getByRole("checkbox", { name: "Click" }).check();
  await record(page);
  await keep(page, "Clicks");
  await expect(sign(page, 2)).toBeVisible();
  const take = await onlyTake(page);
  const board = new URL(page.url()).pathname.split("/").at(-1) as BoardId;
  const clickMs = await page.evaluate(
    async ({ path, fromMs, toMs }) => {
      const bytes = await (await fetch(path)).arrayBuffer();
      const rate = 48_000;
      const sound = await new OfflineAudioContext(1, 1, rate).decodeAudioData(bytes);
      const samples = sound.getChannelData(0);
      const [from, to] = [(fromMs / 1000) * rate, (toMs / 1000) * rate].map(Math.round);
      const near = samples.slice(from, to).map(Math.abs);
      const loudest = near.reduce((most, value) => Math.max(most, value), 0);
      const onset = near.findIndex((value) => value > loudest / 4);
      return loudest > 0.01 ? fromMs + (onset / rate) * 1000 : undefined;
    },
    {
      path: apiPath.take(board, take.id),
      // Half a beat to either side: the click of the first beat and no other.
      fromMs: take.offsetMs - 30_000 / 156,
      toMs: take.offsetMs + 30_000 / 156,
    },
  );
  // The way through the browser's streams is not known to the page; a few blocks of 10 ms.
  expect(Math.abs((clickMs ?? Number.NaN) - take.offsetMs)).toBeLessThan(60);
  expect(lower.problems).toEqual([]);
});

test("a draft is heard with the band, nudged, and thrown away without a trace", async ({
  browser,
}) => {
  const { lower } = await openDemo(browser);
  const { page } = lower;
  await openTakes(page);
  await record(page);
  await watchSources(page);
  await takes(page).getByRole("button", { name: "Hear it with the band" }).click();
  await expect.poll(async () => (await seen(page)).starts.length).toBe(1);
  await takes(page).getByLabel("Earlier or later").fill("100");
  await expect(takes(page)).toContainText("100 ms later");
  await expect.poll(async () => (await seen(page)).starts.length).toBe(2);
  const [first, second] = (await seen(page)).starts;
  // What sounds later comes from further in front of the recording at the same moment.
  const zeroOf = (start: Start | undefined) => (start ? start.when - start.offset : 0);
  expect(zeroOf(second) - zeroOf(first)).toBeCloseTo(0.1, 3);
  await takes(page).getByRole("button", { name: "Throw away" }).click();
  await takes(page).getByRole("button", { name: "Really throw away?" }).click();
  await expect(takes(page).getByRole("button", { name: "Record", exact: true })).toBeVisible();
  await expect(takes(page)).toContainText("Nobody has recorded anything yet.");
  expect(lower.problems).toEqual([]);
});
