/**
 * Listening in a browser: how much of a processor the player takes, how soon a press is heard, how
 * fast a practice file is rendered; and, without a browser, how exactly it keeps time.
 */
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { tailSeconds } from "@halflap/sound/offline";
import { performanceOf, wholeTune } from "@halflap/sound/performance";
import { timelineOf } from "@halflap/timeline/passages";
import { type Browser, chromium, expect, type Page } from "@playwright/test";
import { chromiumLaunch } from "../support/chromium.ts";
import { openDuo } from "../support/duo.ts";
import { fullBoard } from "../support/full-board.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { audioLoad } from "./audio-thread.ts";
import { addPlainButton, giveEar, pressToSound, untilAsleep } from "./ear.ts";
import { type Figure, percentile } from "./figure.ts";
import { schedulingError } from "./scheduling-error.ts";

const busyBars = 16;
const presses = 20;
const warmUps = 3;
/** From the first bar to the start of this one the trace is taken. */
const tracedTo = 3;
const budgets = { loadPercent: 25, firstSoundMs: 150, timesFaster: 20 } as const;

/** All of it, in a browser of its own. */
export async function listening(): Promise<readonly Figure[]> {
  const browser = await chromium.launch(chromiumLaunch);
  const server = await startTestServer();
  try {
    return [
      schedulingError(),
      await playerLoad(browser, server),
      ...(await firstSound(browser, server)),
      await renderedInBrowser(browser, server),
    ];
  } finally {
    await removeTestServer(server);
    await browser.close();
  }
}

const slat = (page: Page) => page.getByRole("region", { name: "Listening" });
const button = (page: Page, name: string) => slat(page).getByRole("button", { name, exact: true });

type Copy = Parameters<typeof openDuo>[2];

/** A board without a count-in; `before` is done to the page ahead of a second load. */
async function openBoard(
  browser: Browser,
  server: TestServer,
  copy: Copy,
  before: (page: Page) => Promise<void> = async () => {},
): Promise<Page> {
  const { lower } = await openDuo(browser, server.address, copy, { bypassCSP: true });
  await before(lower.page);
  await lower.page.reload();
  await lower.seesBoard();
  await slat(lower.page).getByRole("button", { name: /^More/ }).click();
  await slat(lower.page).getByLabel("Count in first").uncheck();
  return lower.page;
}

async function playerLoad(browser: Browser, server: TestServer): Promise<Figure> {
  const loadOf = async (copy: Copy): Promise<number> => {
    const page = await openBoard(browser, server, copy);
    await button(page, "Play").click();
    const plays = (bar: number) =>
      expect(slat(page).locator(".listen-place")).toHaveText(new RegExp(`^Bar ${bar},`));
    await plays(1);
    const load = await audioLoad(browser, page, () => plays(tracedTo));
    await page.context().close();
    return load;
  };
  const busy = await loadOf(fullBoard(busyBars, "dense"));
  return {
    name: "the audio thread with sixteenths in both lanes, of one processor",
    unit: "%",
    value: busy,
    budget: budgets.loadPercent,
    baseline: { name: "the demo tune", value: await loadOf(demoSolution()) },
  };
}

/** Loaded before: the audio sleeps, as it does whenever nothing is played. */
async function firstSound(browser: Browser, server: TestServer): Promise<readonly Figure[]> {
  const page = await openBoard(browser, server, demoSolution(), giveEar);
  const play = async () => {
    const taken = await pressToSound(page, () => button(page, "Play").click());
    await button(page, "Stop").click();
    await untilAsleep(page);
    return taken;
  };
  const ours = await manyTimes(play);
  await addPlainButton(page);
  const plain = await manyTimes(async () => {
    const taken = await pressToSound(page, () => page.locator("#plain-tone").click());
    await untilAsleep(page);
    return taken;
  });
  await page.context().close();
  return [0.5, 0.95].map((share) => ({
    name: `from a press to the first sound given, p${share * 100}`,
    unit: "ms",
    value: percentile(ours, share),
    budget: budgets.firstSoundMs,
    baseline: { name: "a press that wakes an oscillator", value: percentile(plain, share) },
  }));
}

async function manyTimes(work: () => Promise<number>): Promise<readonly number[]> {
  const taken: number[] = [];
  for (let run = 0; run < warmUps + presses; run += 1) taken.push(await work());
  return taken.slice(warmUps);
}

async function renderedInBrowser(browser: Browser, server: TestServer): Promise<Figure> {
  const documents = emptyDocuments();
  fillDocuments(documents, demoSolution());
  const board = makeReader(documents)();
  const timeline = timelineOf(board);
  const { events, end } = performanceOf(board, timeline, {
    ...wholeTune(board, timeline),
    countIn: 0,
  });
  const lasts = end + tailSeconds;
  const page = await openBoard(browser, server, demoSolution());
  const startedAt = performance.now();
  const download = page.waitForEvent("download");
  await button(page, "Save as WAV").click();
  await download;
  const ours = (performance.now() - startedAt) / 1000;
  const plain = await oscillators(
    page,
    events.map(({ start }) => start),
    lasts,
  );
  await page.context().close();
  return {
    name: "the demo tune as a WAV, from the press to the file",
    unit: "x",
    value: lasts / ours,
    budget: budgets.timesFaster,
    baseline: { name: "the browser's own oscillator for each note", value: lasts / plain },
  };
}

/** Seconds in which the browser renders one decaying tone a note by itself. */
function oscillators(page: Page, starts: readonly number[], lasts: number): Promise<number> {
  return page.evaluate(
    async ([times, length]) => {
      const context = new OfflineAudioContext(2, Math.ceil(length * 44_100), 44_100);
      for (const at of times) {
        const fade = new GainNode(context, { gain: 0.1 });
        fade.gain.setTargetAtTime(0, at, 0.5);
        fade.connect(context.destination);
        const tone = new OscillatorNode(context, { frequency: 220 });
        tone.connect(fade);
        tone.start(at);
        tone.stop(at + 2);
      }
      const begun = performance.now();
      await context.startRendering();
      return (performance.now() - begun) / 1000;
    },
    [starts, lasts] as const,
  );
}
