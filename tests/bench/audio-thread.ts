/** How much of a processor the thread takes that renders audio, from the browser's own trace. */
import type { Browser, Page } from "@playwright/test";

type TraceEvent = {
  readonly name?: unknown;
  readonly pid?: unknown;
  readonly tid?: unknown;
  /** Microseconds: when it began by the clock, and how long the thread was at work in it. */
  readonly ts?: unknown;
  readonly tdur?: unknown;
  readonly args?: { readonly name?: unknown };
};

const audioThread = /AudioWorklet/;

/** In percent of one processor, by processor time, from its first task to its last in `run`. */
export async function audioLoad(
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
  const threads = new Set(
    trace.traceEvents
      .filter(({ name, args }) => name === "thread_name" && audioThread.test(String(args?.name)))
      .map(thread),
  );
  let [first, last, worked] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  for (const event of trace.traceEvents) {
    const { name, ts, tdur } = event;
    const isTask = String(name).endsWith("RunTask") && threads.has(thread(event));
    if (!isTask || typeof ts !== "number" || typeof tdur !== "number") continue;
    first = Math.min(first, ts);
    last = Math.max(last, ts + tdur);
    worked += tdur;
  }
  if (worked === 0) throw new Error("the trace shows no task of an audio worklet");
  return (100 * worked) / (last - first);
}
