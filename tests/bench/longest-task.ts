/** How long the longest task of the pages' main threads took, from the browser's own trace. */
import type { Browser, Page } from "@playwright/test";

type TraceEvent = {
  readonly name?: unknown;
  readonly pid?: unknown;
  readonly tid?: unknown;
  /** Microseconds: as the clock went, and those in which the thread was at work. */
  readonly dur?: unknown;
  readonly tdur?: unknown;
  readonly args?: { readonly name?: unknown };
};

/**
 * In ms. `worked` is the longest by processor time: a busy machine makes a task wait, not work.
 */
export type LongestTask = { readonly lasted: number; readonly worked: number };

/** Over every open page of the browser, workers left out, while `run` ran. */
export async function longestTask(
  browser: Browser,
  page: Page,
  run: () => Promise<void>,
): Promise<LongestTask> {
  await browser.startTracing(page, { categories: ["toplevel"] });
  await run();
  const trace: { readonly traceEvents: readonly TraceEvent[] } = JSON.parse(
    (await browser.stopTracing()).toString("utf8"),
  );
  const thread = ({ pid, tid }: TraceEvent) => `${pid}/${tid}`;
  const mains = new Set(
    trace.traceEvents
      .filter(({ name, args }) => name === "thread_name" && args?.name === "CrRendererMain")
      .map(thread),
  );
  const tasks = trace.traceEvents.flatMap((event) => {
    const { name, dur, tdur } = event;
    const isTask = String(name).endsWith("RunTask") && mains.has(thread(event));
    if (!isTask || typeof dur !== "number" || typeof tdur !== "number") return [];
    return [{ lasted: dur / 1000, worked: tdur / 1000 }];
  });
  if (tasks.length === 0) throw new Error("the trace shows no task of a page");
  return {
    lasted: tasks.reduce((most, { lasted }) => Math.max(most, lasted), 0),
    worked: tasks.reduce((most, { worked }) => Math.max(most, worked), 0),
  };
}
