/** The tasks that the threads of a browser ran while something was done, from its own trace. */
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
 * In ms. `worked` is the processor time of the thread itself: a busy machine makes a task wait, not
 * work.
 */
export type TaskTime = { readonly lasted: number; readonly worked: number };

export type TracedTask = TaskTime & {
  /** Whether it had ended when the work was over. */
  readonly isOver: boolean;
};

/** Signs in the trace between which tasks count. */
const [begin, end] = ["halflap-work-begins", "halflap-work-is-over"] as const;

/**
 * What began on the threads of such a name, in every open page of the browser, while `work` was
 * done. A page's main thread is busy for a tenth of a second when a trace starts or stops, so the
 * trace runs for a second more on either side.
 */
export async function tracedTasks(
  browser: Browser,
  page: Page,
  threads: RegExp,
  work: () => Promise<void>,
): Promise<readonly TracedTask[]> {
  await browser.startTracing(page, { categories: ["toplevel", "blink.user_timing"] });
  await aSecond(page);
  await sign(page, begin);
  await work();
  await sign(page, end);
  await aSecond(page);
  const tasks = tasksIn(eventsIn(await browser.stopTracing()), threads);
  if (tasks.length === 0) throw new Error(`the trace shows no task of a ${threads.source}`);
  return tasks;
}

/** The events that matter here. A trace of a minute can be longer than a string may be. */
function eventsIn(trace: Buffer): readonly TraceEvent[] {
  const events: TraceEvent[] = [];
  for (let at = 0; at < trace.length; ) {
    const newline = trace.indexOf("\n", at);
    const lineEnd = newline < 0 ? trace.length : newline;
    const line = trace.toString("utf8", at, lineEnd);
    at = lineEnd + 1;
    const isEvent = line.startsWith('{"args":') && /thread_name|RunTask|halflap-work/.test(line);
    // The browser writes an event a line; behind the last one the list ends.
    if (isEvent) events.push(JSON.parse(line.replace(/(,|\],.*)$/, "")) as TraceEvent);
  }
  return events;
}

function tasksIn(events: readonly TraceEvent[], threads: RegExp): readonly TracedTask[] {
  const thread = ({ pid, tid }: TraceEvent) => `${pid}/${tid}`;
  const signed = (wanted: string) => {
    const at = events.find(({ name }) => name === wanted)?.ts;
    if (typeof at !== "number") throw new Error(`the trace has no ${wanted}`);
    return at;
  };
  const [from, to] = [signed(begin), signed(end)];
  const counted = new Set(
    events
      .filter(({ name, args }) => name === "thread_name" && threads.test(`${args?.name}`))
      .map(thread),
  );
  return events.flatMap((event): TracedTask[] => {
    const { name, ts, dur, tdur } = event;
    if (!String(name).endsWith("RunTask") || !counted.has(thread(event))) return [];
    if (typeof ts !== "number" || typeof dur !== "number" || typeof tdur !== "number") return [];
    if (ts < from || ts > to) return [];
    return [{ lasted: dur / 1000, worked: tdur / 1000, isOver: ts + dur <= to }];
  });
}

async function sign(page: Page, name: string): Promise<void> {
  await page.evaluate((name) => void performance.mark(name), name);
}

async function aSecond(page: Page): Promise<void> {
  await page.evaluate(() => new Promise<void>((resolve) => setTimeout(resolve, 1000)));
}
