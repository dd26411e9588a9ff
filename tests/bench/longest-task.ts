/** How long the longest task of a page's main thread took, from the browser's own trace. */
import type { Browser, Page } from "@playwright/test";
import { type TaskTime, tracedTasks } from "./traced-tasks.ts";

/**
 * For each of the pages, workers left out, while `run` ran: the most by the clock, and the most by
 * processor time. Only tasks that lie wholly within count, for at the end the page is busy with the
 * trace itself.
 */
export async function longestTasks(
  browser: Browser,
  pages: readonly Page[],
  run: () => Promise<void>,
): Promise<readonly TaskTime[]> {
  const all = await tracedTasks(browser, pages, /^CrRendererMain$/, run);
  return all.map((tasks) => longestOf(tasks.filter(({ isOver }) => isOver)));
}

/** By the clock and at work, which need not be the same task. */
export function longestOf(tasks: readonly TaskTime[]): TaskTime {
  return {
    lasted: tasks.reduce((most, { lasted }) => Math.max(most, lasted), 0),
    worked: tasks.reduce((most, { worked }) => Math.max(most, worked), 0),
  };
}
