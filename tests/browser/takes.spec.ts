/** Takes: recorded over the band, kept, heard by the other at the right moment, and taken away. */
import { demoSolution } from "@halflap/board/demo";
import { apiPath, type BoardId, type TakeCard, type TakesAnswer } from "@halflap/wire/api";
import { type Browser, expect, type Page, test } from "@playwright/test";
import { chromiumLaunch } from "../support/chromium.ts";
import { type Duo, openDuo } from "../support/duo.ts";
import { faults } from "../support/page-faults.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

// A microphone that beeps twice a second or so, in place of the machine's own.
const args = [...(chromiumLaunch.args ?? []), "--use-fake-device-for-media-stream"];
test.use({ launchOptions: { ...chromiumLaunch, args } });
// What is recorded lasts as long as it lasts, and is heard again as long.
test.describe.configure({ timeout: 180_000 });

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const openDemo = (browser: Browser, permissions: string[] = ["microphone"]): Promise<Duo> =>
  openDuo(browser, server.address, demoSolution(), { reducedMotion: "reduce", permissions });
const slat = (page: Page) => page.getByRole("region", { name: "Listening" });
const button = (page: Page, name: string | RegExp) =>
  slat(page).getByRole("button", { name, exact: true });
const takes = (page: Page) => slat(page).getByRole("group", { name: "Takes", exact: true });
const entry = (page: Page) => takes(page).locator(".take");
const sign = (page: Page, bar: number) =>
  page
    .locator(".chord-cell")
    .nth(bar - 1)
    .locator(".take-sign");

async function openTakes(page: Page): Promise<void> {
  await slat(page).getByRole("button", { name: /^More/ }).click();
  await expect(takes(page)).toBeVisible();
}

/** Bars 2 and 3, half as fast again: what is waited for comes sooner. */
async function record(page: Page): Promise<void> {
  await slat(page).getByRole("slider", { name: "Tempo" }).fill("150");
  for (const [label, bar] of [
    ["From bar", "2"],
    ["to bar", "3"],
  ] as const) {
    const field = takes(page).getByLabel(label, { exact: true });
    await field.fill(bar);
    await field.press("Enter");
  }
  await takes(page).getByRole("button", { name: "Record", exact: true }).click();
  await expect(takes(page)).toContainText("Counting in");
  await expect(takes(page)).toContainText("Recording: 1 s");
  const meter = takes(page).getByRole("meter", { name: "How loud it comes in" });
  await expect
    .poll(async () => Number(await meter.getAttribute("aria-valuenow")))
    .toBeGreaterThan(10);
  await expect(takes(page).getByRole("button", { name: "Hear it with the band" })).toBeVisible();
}

async function keep(page: Page, name: string): Promise<void> {
  await takes(page).getByLabel("Name of the take").fill(name);
  await takes(page).getByRole("button", { name: "Keep it" }).click();
}

type Start = { readonly when: number; readonly offset: number; readonly length: number };
type Seen = {
  readonly starts: Start[];
  /** When bar 2 is given by the player for the first time, in the audio's own time. */
  bar2(): number | undefined;
  level(): number;
};

/** Writes down what sounds from a recording from now on, and how the player's bars lie. */
async function watchSources(page: Page): Promise<void> {
  await page.evaluate(() => {
    type Told = {
      readonly plan?: { readonly bars: readonly { readonly start: number }[] } & {
        readonly anchor: { sample: number; tick: number; samplesPerTick: number };
      };
    };
    const starts: Start[] = [];
    let ear: AnalyserNode | undefined;
    let plan: Told["plan"];
    let origin: number | undefined;
    let rate = 1;
    const start = AudioBufferSourceNode.prototype.start;
    AudioBufferSourceNode.prototype.start = function (when = 0, offset = 0, length = 0) {
      ear ??= new AnalyserNode(this.context);
      this.connect(ear);
      starts.push({ when, offset, length });
      start.call(this, when, offset, length);
    };
    class WatchedWorker extends Worker {
      constructor(address: string | URL, options?: WorkerOptions) {
        super(address, options);
        this.addEventListener("message", ({ data }: MessageEvent<Told>) => {
          plan ??= data.plan;
        });
      }
    }
    class WatchedPlayer extends AudioWorkletNode {
      constructor(context: BaseAudioContext, name: string, options?: AudioWorkletNodeOptions) {
        super(context, name, options);
        rate = context.sampleRate;
        this.port.addEventListener("message", ({ data }) => {
          origin = data.time - data.sample / rate;
        });
      }
    }
    const bar2 = () => {
      const second = plan?.bars[1];
      if (plan === undefined || second === undefined || origin === undefined) return undefined;
      const { sample, tick, samplesPerTick } = plan.anchor;
      return origin + (sample + (second.start - tick) * samplesPerTick) / rate;
    };
    const level = () => {
      const samples = new Float32Array(2048);
      ear?.getFloatTimeDomainData(samples);
      return samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    };
    const seen: Seen = { starts, bar2, level };
    Object.assign(globalThis, { seen, Worker: WatchedWorker, AudioWorkletNode: WatchedPlayer });
  });
}
const seen = (page: Page) =>
  page.evaluate(() => {
    const { starts, bar2, level } = (globalThis as unknown as { seen: Seen }).seen;
    return { starts, bar2: bar2(), level: level() };
  });

/** Puts what the page plays in the microphone's place, without a way out or in. */
async function hearsItself(page: Page): Promise<void> {
  await page.evaluate(() => {
    const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode) => AudioNode;
    let loop: MediaStreamAudioDestinationNode | undefined;
    AudioNode.prototype.connect = function (this: AudioNode, to: AudioNode) {
      if (to instanceof AudioDestinationNode && this.context instanceof AudioContext) {
        loop ??= new MediaStreamAudioDestinationNode(this.context);
        connect.call(this, loop);
      }
      return connect.call(this, to);
    } as typeof AudioNode.prototype.connect;
    for (const name of ["outputLatency", "baseLatency"]) {
      Object.defineProperty(AudioContext.prototype, name, { get: () => 0 });
    }
    navigator.mediaDevices.getUserMedia = async () => {
      while (loop === undefined) await new Promise((resolve) => setTimeout(resolve, 10));
      return loop.stream;
    };
  });
}

async function onlyTake(page: Page): Promise<TakeCard> {
  const board = new URL(page.url()).pathname.split("/").at(-1) as BoardId;
  const answer: TakesAnswer = await page.evaluate(
    async (path) => (await fetch(path)).json(),
    apiPath.takes(board),
  );
  const [take] = answer.takes;
  if (take === undefined) throw new Error("no take is on the server");
  return take;
}

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
  test(`on a phone takes fit, are accessible, and large enough for a thumb, in ${colorScheme}`, async ({
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
