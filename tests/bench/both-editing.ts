/** The longest task of a page's main thread while two people edit a full board for a minute. */
import { type Browser, chromium, type Page } from "@playwright/test";
import { chromiumLaunch } from "../support/chromium.ts";
import { openDuo } from "../support/duo.ts";
import { fullBoard } from "../support/full-board.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";
import type { Figure } from "./figure.ts";
import { longestOf, longestTasks } from "./longest-task.ts";
import { type PlainPages, servePlainPages } from "./plain-pages.ts";
import type { TaskTime } from "./traced-tasks.ts";

const bars = 128;
const editingMs = 60_000;
const grips = ["x-1-3-0-3-x", "3-2-0-0-0-1"] as const;

/**
 * In ms; opening the board, and whatever is done before the minute starts, does not count, nor do
 * the tasks in which the trace itself is started and stopped. Two browsers, the server and who
 * drives them share the machine, so that a task waits in the middle: how much is the machine's, the
 * bare page shows that is typed into beside them. What a page owes is its work.
 */
export async function bothEditing(): Promise<readonly Figure[]> {
  const browser = await chromium.launch(chromiumLaunch);
  const server = await startTestServer();
  const plain = await servePlainPages();
  try {
    const { board, bare } = await longestOfBoth(browser, server.address, plain);
    const name = `longest main-thread task, two people editing ${bars} full bars for a minute`;
    const baseline = "a bare page that is typed into beside them";
    return [
      {
        ...{ name, unit: "ms", value: board.worked, budget: 50 },
        baseline: { name: baseline, value: bare.worked },
      },
      {
        ...{ name: `${name}, by the clock`, unit: "ms", value: board.lasted, budget: undefined },
        baseline: { name: baseline, value: bare.lasted },
      },
    ];
  } finally {
    plain.stop();
    await removeTestServer(server);
    await browser.close();
  }
}

async function longestOfBoth(
  browser: Browser,
  address: string,
  plain: PlainPages,
): Promise<{ readonly board: TaskTime; readonly bare: TaskTime }> {
  const { lower, upper } = await openDuo(browser, address, fullBoard(bars, "dense"));
  for (const player of [lower, upper]) {
    await player.seesSaved();
    await player.page.locator(".finding").first().waitFor();
    await player.page.keyboard.press("Escape");
  }
  await lower.slot("lower", 0).click();
  await upper.slot("upper", 0).click();
  const hands = [await handOf(lower.page), await handOf(upper.page)];
  const { page: barePage, type } = await openPlain(browser, plain);
  const pages = [lower.page, upper.page, barePage];
  const [one, other, bare] = await longestTasks(browser, pages, () =>
    forAMinute(async (edit) => {
      await Promise.all([...hands.map((hand) => typeGrip(hand, edit)), type(`edit ${edit}`)]);
    }),
  );
  if (!one || !other || !bare) throw new Error("three pages");
  return { board: longestOf([one, other]), bare };
}

async function openPlain(browser: Browser, plain: PlainPages) {
  const page = await (await browser.newContext()).newPage();
  await page.goto(plain.address);
  await page.locator("body[data-open]").waitFor();
  const field = await page.locator("input").elementHandle();
  const type = async (text: string) => {
    await field?.fill(text);
    await field?.press("Enter");
  };
  return { page, type };
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
