/** The page's shell in this browser: kept for offline, and replaced when a newer one is ready. */

/**
 * Registers the shell's worker. A newer shell that was fetched during an earlier visit takes over
 * now, while nothing has been typed yet, and the page loads once more; one that is fetched during
 * this visit waits for the next. Rejects where the browser allows no worker.
 */
export async function keepShell(workers: ServiceWorkerContainer): Promise<void> {
  const hadShell = workers.controller !== null;
  const { waiting } = await workers.register("/sw.js");
  if (waiting === null || !hadShell) return;
  workers.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage({ type: "SKIP_WAITING" });
}
