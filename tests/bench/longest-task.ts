/** How long the longest task of the pages' main threads took, from the browser's own trace. */
import type { Browser, Page } from "@playwright/test";

type TraceEvent = {
  readonly name?: unknown;
  readonly pid?: unknown;
  readonly tid?: unknown;
  /** Microseconds: when it began, how long as the clock went, and how long at work. */
  readonly ts?: unknown;
  readonly dur?: unknown;
  readonly tdur?: unknown;
  readonly args?: { readonly name?: unknown };
};

/**
 * In ms. `worked` is the longest by processor time: a busy machine makes a task wait, not work.
 */
export type LongestTask = { readonly lasted: number; readonly worked: number };

/** Signs in the trace between which tasks count. */
const [begin, end] = ["halflap-run-begins", "halflap-run-is-over"] as const;

/**
 * Over every open page of the browser, workers left out, while `run` ran. A page's main thread is
 * busy for a tenth of a second when a trace starts or stops, so the trace runs for a second more on
 * either side, and only tasks that lie wholly between are counted.
 */
export async function longestTask(
  browser: Browser,
  page: Page,
  run: () => Promise<void>,
): Promise<LongestTask> {
  await browser.startTracing(page, { categories: ["toplevel", "blink.user_timing"] });
  await aSecond(page);
  await sign(page, begin);
  await run();
  await sign(page, end);
  await aSecond(page);
  const trace: { readonly traceEvents: readonly TraceEvent[] } = JSON.parse(
    (await browser.stopTracing()).toString("utf8"),
  );
  const tasks = tasksIn(trace.traceEvents);
  return {
    lasted: tasks.reduce((most, { lasted }) => Math.max(most, lasted), 0),
    worked: tasks.reduce((most, { worked }) => Math.max(most, worked), 0),
  };
}

function tasksIn(events: readonly TraceEvent[]): readonly LongestTask[] {
  const thread = ({ pid, tid }: TraceEvent) => `${pid}/${tid}`;
  const signed = (wanted: string) => {
    const at = events.find(({ name }) => name === wanted)?.ts;
    if (typeof at !== "number") throw new Error(`the trace has no ${wanted}`);
    return at;
  };
  const [from, to] = [signed(begin), signed(end)];
  const mains = new Set(
    events
      .filter(({ name, args }) => name === "thread_name" && args?.name === "CrRendererMain")
      .map(thread),
  );
  const tasks = events.flatMap((event) => {
    const { name, ts, dur, tdur } = event;
    const isTask = String(name).endsWith("RunTask") && mains.has(thread(event));
    if (!isTask || typeof dur !== "number" || typeof tdur !== "number") return [];
    if (typeof ts !== "number" || ts < from || ts + dur > to) return [];
    return [{ lasted: dur / 1000, worked: tdur / 1000 }];
  });
  if (tasks.length === 0) throw new Error("the trace shows no task of a page");
  return tasks;
}

async function sign(page: Page, name: string): Promise<void> {
  await page.evaluate((name) => void performance.mark(name), name);
}

async function aSecond(page: Page): Promise<void> {
  await page.evaluate(() => new Promise<void>((resolve) => setTimeout(resolve, 1000)));
}
