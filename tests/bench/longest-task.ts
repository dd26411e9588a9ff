/** How long the longest task of the pages' main threads took, from the browser's own trace. */
import type { Browser, Page } from "@playwright/test";

type TraceEvent = {
  readonly name?: unknown;
  readonly pid?: unknown;
  readonly tid?: unknown;
  /** Microseconds. */
  readonly dur?: unknown;
  readonly args?: { readonly name?: unknown };
};

/** In ms, over every open page of the browser, workers left out, while `run` ran. */
export async function longestTask(
  browser: Browser,
  page: Page,
  run: () => Promise<void>,
): Promise<number> {
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
  const tasks = trace.traceEvents.flatMap((event) =>
    typeof event.dur === "number" &&
    String(event.name).endsWith("RunTask") &&
    mains.has(thread(event))
      ? [event.dur / 1000]
      : [],
  );
  if (tasks.length === 0) throw new Error("the trace shows no task of a page");
  return Math.max(...tasks);
}
