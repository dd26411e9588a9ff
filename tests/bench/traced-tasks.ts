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
 * What began on the threads of such a name while `work` was done, for each of the pages, which have
 * no process in common. A page's main thread is busy for a tenth of a second when a trace starts or
 * stops, so the trace runs for a second more on either side.
 */
export async function tracedTasks(
  browser: Browser,
  pages: readonly Page[],
  threads: RegExp,
  work: () => Promise<void>,
): Promise<readonly (readonly TracedTask[])[]> {
  await browser.startTracing(pages[0], { categories: ["toplevel", "blink.user_timing"] });
  await aSecond(pages);
  await sign(pages, begin);
  await work();
  await sign(pages, end);
  await aSecond(pages);
  const events = eventsIn(await browser.stopTracing());
  return pages.map((_, index) => {
    const tasks = tasksIn(events, index, threads);
    if (tasks.length === 0) throw new Error(`the trace shows no task of a ${threads.source}`);
    return tasks;
  });
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

/** `index` is the page's, in the order in which they were signed. */
function tasksIn(events: readonly TraceEvent[], index: number, threads: RegExp) {
  const thread = ({ pid, tid }: TraceEvent) => `${pid}/${tid}`;
  const signed = (wanted: string) => {
    const sign = events.find(({ name }) => name === `${wanted}-${index}`);
    if (typeof sign?.ts !== "number") throw new Error(`the trace has no ${wanted}-${index}`);
    return { at: sign.ts, process: sign.pid };
  };
  const { at: from, process } = signed(begin);
  const { at: to } = signed(end);
  const counted = new Set(
    events
      .filter(({ pid }) => pid === process)
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

async function sign(pages: readonly Page[], name: string): Promise<void> {
  const mark = (name: string) => void performance.mark(name);
  await Promise.all(pages.map((page, index) => page.evaluate(mark, `${name}-${index}`)));
}

async function aSecond(pages: readonly Page[]): Promise<void> {
  const wait = () => new Promise<void>((resolve) => setTimeout(resolve, 1000));
  await Promise.all(pages.map((page) => page.evaluate(wait)));
}
