/** How far apart two browsers on one machine start the same bars while they play together. */
import { demoSolution } from "@halflap/board/demo";
import { type Browser, chromium } from "@playwright/test";
import { chromiumLaunch } from "../support/chromium.ts";
import { openDuo } from "../support/duo.ts";
import { comingBars, type HeardBar, writeBarsDown } from "../support/heard-bars.ts";
import type { Player } from "../support/player.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";
import { type Figure, percentile } from "./figure.ts";

const playingMs = 60_000;
/** Bars are written down this long before they start. */
const aheadMs = 3_000;
const budgetMs = 10;

/** p95 over a minute of bars, beside two browsers in which Play is pressed at the same time. */
export async function together(): Promise<readonly Figure[]> {
  const browser = await chromium.launch(chromiumLaunch);
  try {
    const agreed = await differences(browser, async (lower, upper) => {
      await button(lower, "Play for everybody").click();
      await button(upper, "Hear it too").click();
      await upper.page.getByText(/^Together with Ada/).waitFor();
    });
    const pressed = await differences(browser, async (lower, upper) => {
      await Promise.all([button(lower, "Play").click(), button(upper, "Play").click()]);
    });
    return [
      {
        name: "how far apart two browsers start a bar, p95",
        unit: "ms",
        value: percentile(agreed, 0.95),
        budget: budgetMs,
        baseline: {
          name: "Play pressed in both at the same time",
          value: percentile(pressed, 0.95),
        },
      },
    ];
  } finally {
    await browser.close();
  }
}

/** Of every bar that starts within the time, in ms. */
async function differences(
  browser: Browser,
  start: (lower: Player, upper: Player) => Promise<void>,
): Promise<readonly number[]> {
  const server = await startTestServer();
  try {
    const tune = demoSolution();
    const { lower, upper } = await openDuo(browser, server.address, tune, {}, writeBarsDown);
    await start(lower, upper);
    await lower.page.locator(".heard-bar").waitFor();
    await upper.page.locator(".heard-bar").waitFor();
    const found = new Map<number, number>();
    for (const end = Date.now() + playingMs; Date.now() < end; ) {
      const [mine, theirs] = await Promise.all([coming(lower), coming(upper)]);
      // The last word on a bar before it starts is the one that is heard.
      for (const bar of mine) {
        const other = theirs.find(({ index }) => index === bar.index);
        if (other !== undefined) found.set(bar.index, Math.abs(other.atMs - bar.atMs));
      }
      await nextBar(lower);
    }
    await lower.context.close();
    await upper.context.close();
    return [...found.values()];
  } finally {
    await removeTestServer(server);
  }
}

function coming({ page }: Player): Promise<readonly HeardBar[]> {
  return comingBars(page, aheadMs);
}

async function nextBar({ page }: Player): Promise<void> {
  const place = page.locator(".listen-place");
  const now = (await place.textContent()) ?? "";
  await place.filter({ hasNotText: now }).waitFor();
}

function button({ page }: Player, name: string) {
  return page.getByRole("region", { name: "Listening" }).getByRole("button", { name, exact: true });
}
