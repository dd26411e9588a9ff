/** How much script the first visit to a board loads, as it comes over the line. */
import { chromium, type Request } from "@playwright/test";
import { chromiumLaunch } from "../support/chromium.ts";
import { openDuo } from "../support/duo.ts";
import { fullBoard } from "../support/full-board.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";
import type { Figure } from "./figure.ts";

const kilobyte = 1000;

/** All scripts of the board's page up to the moment it can be used, in KB. */
export async function pageWeight(): Promise<readonly Figure[]> {
  const server = await startTestServer();
  const browser = await chromium.launch(chromiumLaunch);
  try {
    const { lower, boardAddress } = await openDuo(browser, server.address, fullBoard(16));
    const context = await browser.newContext({ serviceWorkers: "block" });
    await context.addCookies(await lower.context.cookies());
    const page = await context.newPage();
    const scripts: Request[] = [];
    page.on("requestfinished", (request) => {
      if (request.resourceType() === "script") scripts.push(request);
    });
    await page.goto(boardAddress, { waitUntil: "networkidle" });
    await page.locator(".state-line[data-state=saved]").waitFor();
    const ofWorkers = scripts.filter((script) => /-worker-/.test(script.url()));
    const ofPage = scripts.filter((script) => !ofWorkers.includes(script));
    return [
      await weight("script of a first visit to the board", ofPage, 150),
      await weight("script of its workers beside it", ofWorkers, undefined),
    ];
  } finally {
    await browser.close();
    await removeTestServer(server);
  }
}

async function weight(
  name: string,
  scripts: readonly Request[],
  budget: number | undefined,
): Promise<Figure> {
  const whole = await sum(
    scripts,
    async (script) => (await (await script.response())?.body())?.length ?? 0,
  );
  return {
    name: `${name}, compressed, in ${scripts.length} files`,
    unit: "KB",
    value: (await sum(scripts, bytesSent)) / kilobyte,
    budget,
    baseline: { name: "the same script uncompressed", value: whole / kilobyte },
  };
}

/** As the server says; the browser itself counts nothing for the scripts of workers. */
async function bytesSent(script: Request): Promise<number> {
  const answer = await fetch(script.url(), { headers: { "accept-encoding": "gzip" } });
  await answer.arrayBuffer();
  return Number(answer.headers.get("content-length") ?? Number.NaN);
}

async function sum(
  scripts: readonly Request[],
  sizeOf: (script: Request) => Promise<number>,
): Promise<number> {
  const sizes = await Promise.all(scripts.map(sizeOf));
  return sizes.reduce((total, size) => total + size, 0);
}
