/** How long the longest task of the pages' main threads took, from the browser's own trace. */
import type { Browser, Page } from "@playwright/test";
import { type TaskTime, tracedTasks } from "./traced-tasks.ts";

/**
 * Over every open page of the browser, workers left out, while `run` ran: the most by the clock,
 * and the most by processor time. Only tasks that lie wholly within count, for at the end the page
 * is busy with the trace itself.
 */
export async function longestTask(
  browser: Browser,
  page: Page,
  run: () => Promise<void>,
): Promise<TaskTime> {
  const all = await tracedTasks(browser, page, /^CrRendererMain$/, run);
  const within = all.filter(({ isOver }) => isOver);
  return {
    lasted: within.reduce((most, { lasted }) => Math.max(most, lasted), 0),
    worked: within.reduce((most, { worked }) => Math.max(most, worked), 0),
  };
}
