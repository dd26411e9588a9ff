/** The longest task of a page's main thread while two people edit a full board for a minute. */
import { type Browser, chromium, type Page } from "@playwright/test";
import { chromiumLaunch } from "../support/chromium.ts";
import { openDuo } from "../support/duo.ts";
import { fullBoard } from "../support/full-board.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";
import type { Figure } from "./figure.ts";
import { longestTask } from "./longest-task.ts";
import { servePlainPages } from "./plain-pages.ts";
import type { TaskTime } from "./traced-tasks.ts";

const bars = 128;
const editingMs = 60_000;
const grips = ["x-1-3-0-3-x", "3-2-0-0-0-1"] as const;

/**
 * In ms; opening the board, and whatever is done before the minute starts, does not count, nor do
 * the tasks in which the trace itself is started and stopped.
 */
export async function bothEditing(): Promise<readonly Figure[]> {
  const browser = await chromium.launch(chromiumLaunch);
  try {
    const board = await onTheBoard(browser);
    const plain = await onPlainPages(browser, board.edits);
    const name = `longest main-thread task, two people editing ${bars} full bars for a minute`;
    const baseline = "typing into a bare page";
    return [
      {
        ...{ name, unit: "ms", value: board.lasted, budget: 50 },
        baseline: { name: baseline, value: plain.lasted },
      },
      {
        ...{ name: `${name}, processor time`, unit: "ms", value: board.worked, budget: 50 },
        baseline: { name: baseline, value: plain.worked },
      },
    ];
  } finally {
    await browser.close();
  }
}

type Edited = TaskTime & { readonly edits: number };

async function onTheBoard(browser: Browser): Promise<Edited> {
  const server = await startTestServer();
  try {
    const { lower, upper } = await openDuo(browser, server.address, fullBoard(bars, "dense"));
    for (const player of [lower, upper]) {
      await player.seesSaved();
      await player.page.locator(".finding").first().waitFor();
      await player.page.keyboard.press("Escape");
    }
    await lower.slot("lower", 0).click();
    await upper.slot("upper", 0).click();
    const hands = [await handOf(lower.page), await handOf(upper.page)];
    let edits = 0;
    const longest = await longestTask(browser, lower.page, () =>
      forAMinute(async (edit) => {
        await Promise.all(hands.map((hand) => typeGrip(hand, edit)));
        edits = edit + 1;
      }),
    );
    return { ...longest, edits };
  } finally {
    await removeTestServer(server);
  }
}

/** At the board's pace: so small a page could be typed into many times as often. */
async function onPlainPages(browser: Browser, edits: number): Promise<TaskTime> {
  const plain = await servePlainPages();
  try {
    const page = await (await browser.newContext()).newPage();
    await page.goto(plain.address);
    await page.locator("body[data-open]").waitFor();
    const field = await page.locator("input").elementHandle();
    const startedAt = Date.now();
    const edit = async (count: number) => {
      const early = startedAt + (count * editingMs) / edits - Date.now();
      if (early > 0) await new Promise((resolve) => setTimeout(resolve, early));
      await field?.fill(`edit ${count}`);
      await page.keyboard.press("Enter");
    };
    return await longestTask(browser, page, () => forAMinute(edit));
  } finally {
    plain.stop();
  }
}

/** One edit after another, each when the last one is done, until the minute is over. */
async function forAMinute(edit: (count: number) => Promise<unknown>): Promise<void> {
  const end = Date.now() + editingMs;
  for (let count = 0; Date.now() < end; count += 1) await edit(count);
}

/** What is typed into and pressed. Found once: a search by role walks the whole page. */
async function handOf(page: Page) {
  const field = page.getByRole("textbox", { name: "Grip", exact: true });
  const after = page.getByRole("button", { name: "Slot after" });
  const hand = { field: await field.elementHandle(), after: await after.elementHandle() };
  if (hand.field === null || hand.after === null) throw new Error("the neck lies open");
  return { field: hand.field, after: hand.after };
}

/** Types a grip on the neck that lies open, and every third time walks to the next slot. */
async function typeGrip(
  { field, after }: Awaited<ReturnType<typeof handOf>>,
  edit: number,
): Promise<void> {
  await field.fill(grips[edit % 2] ?? "");
  await field.press("Enter");
  if (edit % 3 === 2) await after.click();
}
