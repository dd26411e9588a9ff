/** How long the tasks of a page's worker took, from the browser's own trace. */
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
 * In ms. `worked` is the processor time of the worker's own thread: a busy machine makes a task
 * wait, not work.
 */
export type WorkerTask = { readonly lasted: number; readonly worked: number };

/** Signs in the trace between which tasks count. */
const [begin, end] = ["halflap-work-begins", "halflap-work-is-over"] as const;

/** The longest task of any of the page's workers while some work is done. */
export async function workerTask(
  browser: Browser,
  page: Page,
  work: () => Promise<void>,
): Promise<WorkerTask> {
  await browser.startTracing(page, { categories: ["toplevel", "blink.user_timing"] });
  await sign(page, begin);
  await work();
  await sign(page, end);
  const trace: { readonly traceEvents: readonly TraceEvent[] } = JSON.parse(
    (await browser.stopTracing()).toString("utf8"),
  );
  return longestIn(trace.traceEvents);
}

async function sign(page: Page, name: string): Promise<void> {
  await page.evaluate((name) => void performance.mark(name), name);
}

function longestIn(events: readonly TraceEvent[]): WorkerTask {
  const thread = ({ pid, tid }: TraceEvent) => `${pid}/${tid}`;
  const signed = (wanted: string) => {
    const at = events.find(({ name }) => name === wanted)?.ts;
    if (typeof at !== "number") throw new Error(`the trace has no ${wanted}`);
    return at;
  };
  const [from, to] = [signed(begin), signed(end)];
  const workers = new Set(
    events
      .filter(({ name, args }) => name === "thread_name" && /DedicatedWorker/.test(`${args?.name}`))
      .map(thread),
  );
  const tasks = events.flatMap((event): WorkerTask[] => {
    const { name, ts, dur, tdur } = event;
    if (!String(name).endsWith("RunTask") || !workers.has(thread(event))) return [];
    if (typeof ts !== "number" || typeof dur !== "number" || typeof tdur !== "number") return [];
    return ts < from || ts > to ? [] : [{ lasted: dur / 1000, worked: tdur / 1000 }];
  });
  const [longest] = tasks.sort((one, other) => other.worked - one.worked);
  if (longest === undefined) throw new Error("the trace shows no task of a worker");
  return longest;
}
