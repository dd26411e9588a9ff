/**
 * Stopping on a signal: the first one lets everything finish, a second one or ten seconds end it at
 * once. And ending without one, where going on or stopping in order would do harm.
 */
import type { Log } from "./log.ts";

const patienceMs = 10_000;

/** Listens for SIGTERM and SIGINT. */
export function stopOnSignal(server: { stop(): Promise<void> }, log: Log): void {
  let isStopping = false;
  const stop = (signal: NodeJS.Signals) => {
    if (isStopping) process.exit(1);
    isStopping = true;
    log.info("stopping", { signal });
    setTimeout(() => process.exit(1), patienceMs).unref();
    server.stop().then(
      () => {
        log.info("stopped");
        process.exit(0);
      },
      (fault: unknown) => {
        log.fault("stop-failed", fault);
        process.exit(1);
      },
    );
  };
  process.on("SIGTERM", stop);
  process.on("SIGINT", stop);
}

/**
 * Ends the process as a power cut would, once its store is broken: nothing is tidied up, and the
 * next start reads what really is on the disk.
 */
export function endWhenBroken(server: { readonly broken: Promise<void> }, log: Log): void {
  void server.broken.then(() => {
    log.info("ended", { why: "the disk lost what was written; the next start reads what it kept" });
    process.kill(process.pid, "SIGKILL");
  });
}
