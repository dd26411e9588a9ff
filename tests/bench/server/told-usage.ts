/** The other end of a target: tells its offer, what it costs, and ends when asked. */
import type { Offer, Usage } from "./target.ts";

/** Tells the parent process what is offered, and answers its questions from then on. */
export function serveParent(offer: Offer, stop: () => Promise<void>): void {
  process.on("message", (asked) => {
    if (asked === "usage") process.send?.(usage());
    if (asked === "end") void stop().finally(() => process.exit(0));
  });
  process.on("disconnect", () => process.exit(1));
  process.send?.(offer);
}

function usage(): Usage {
  const cpuBefore = cpuSeconds();
  globalThis.gc?.();
  const { heapUsed, external } = process.memoryUsage();
  return { cpuBefore, cpuAfter: cpuSeconds(), bytes: heapUsed + external };
}

function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
