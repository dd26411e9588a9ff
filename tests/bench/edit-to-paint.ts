/** From an edit in one browser to its paint in another, on a full board of 64 bars. */
import { type Browser, chromium, type Page } from "@playwright/test";
import { chromiumLaunch } from "../support/chromium.ts";
import { openDuo } from "../support/duo.ts";
import { fullBoard } from "../support/full-board.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";
import { type Figure, percentile } from "./figure.ts";
import { pressedAt, watchEnter, watchPaint } from "./paint-clock.ts";
import { servePlainPages } from "./plain-pages.ts";

const bars = 64;
const edits = 60;
const warmUps = 5;
const grips = ["x-1-3-0-3-x", "3-2-0-0-0-1"] as const;

/** Median and slow end, in ms. */
export async function editToPaint(): Promise<readonly Figure[]> {
  const browser = await chromium.launch(chromiumLaunch);
  try {
    const ours = await onTheBoard(browser);
    const plain = await onPlainPages(browser);
    return [0.5, 0.95].map((share) => ({
      name: `edit in one browser to paint in the other, ${bars} bars, p${share * 100}`,
      unit: "ms",
      value: percentile(ours, share),
      budget: 100,
      baseline: {
        name: "text over a bare WebSocket between two bare pages",
        value: percentile(plain, share),
      },
    }));
  } finally {
    await browser.close();
  }
}

async function onTheBoard(browser: Browser): Promise<readonly number[]> {
  const server = await startTestServer();
  try {
    const { lower, upper } = await openDuo(browser, server.address, fullBoard(bars));
    await upper.seesSaved();
    await watchEnter(lower.page);
    const field = lower.page.getByRole("textbox", { name: "Grip", exact: true });
    const selector = '.lane-row[data-lane="lower"] .lane-cell';
    return await samples(async (edit) => {
      // Each slot twice, so that the second grip always differs from the first.
      const index = Math.floor(edit / 2);
      const grip = grips[edit % 2] ?? "";
      await lower.slot("lower", index).click();
      await field.fill(grip);
      const element = { selector: `${selector} .fret-string`, index };
      return { from: lower.page, watch: await watchPaint(upper.page, element, grip) };
    });
  } finally {
    await removeTestServer(server);
  }
}

async function onPlainPages(browser: Browser): Promise<readonly number[]> {
  const plain = await servePlainPages();
  try {
    const [from, to] = [
      await openPlain(browser, plain.address),
      await openPlain(browser, plain.address),
    ];
    await watchEnter(from);
    return await samples(async (edit) => {
      await from.locator("input").fill(`edit ${edit}`);
      const element = { selector: "output", index: 0 };
      return { from, watch: await watchPaint(to, element, `edit ${edit}`) };
    });
  } finally {
    plain.stop();
  }
}

async function openPlain(browser: Browser, address: string): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await page.goto(address);
  await page.locator("body[data-open]").waitFor();
  return page;
}

type Prepared = {
  readonly from: Page;
  readonly watch: { readonly paintedAt: () => Promise<number> };
};

/**
 * Presses Enter once everything stands ready, and takes the time until the other page has painted.
 */
async function samples(prepare: (edit: number) => Promise<Prepared>): Promise<readonly number[]> {
  const taken: number[] = [];
  for (let edit = 0; edit < warmUps + edits; edit += 1) {
    const { from, watch } = await prepare(edit);
    await from.keyboard.press("Enter");
    const paintedAt = await watch.paintedAt();
    taken.push(paintedAt - (await pressedAt(from)));
  }
  return taken.slice(warmUps);
}
