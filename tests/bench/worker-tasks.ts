/** How long the tasks of a page's worker took, from the browser's own trace. */
import type { Browser, Page } from "@playwright/test";
import { type TaskTime, tracedTasks } from "./traced-tasks.ts";

/**
 * The task of any of the page's workers that worked longest while some work is done; it may still
 * run when what it found has come.
 */
export async function workerTask(
  browser: Browser,
  page: Page,
  work: () => Promise<void>,
): Promise<TaskTime> {
  const [tasks = []] = await tracedTasks(browser, [page], /DedicatedWorker/, work);
  return tasks.reduce((longest, task) => (task.worked > longest.worked ? task : longest));
}
