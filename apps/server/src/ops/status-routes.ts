/** How a proxy or a person asks the process how it is: alive, ready for work, and which version. */
import { Hono } from "hono";
import type { Readiness } from "./readiness.ts";

/** /healthz, /readyz and /version. */
export function statusRoutes(readiness: Readiness, version: string): Hono {
  const routes = new Hono();
  // Never asks the store: it says that the process turns.
  routes.get("/healthz", (c) => c.text("ok"));
  routes.get("/readyz", async (c) => {
    const state = await readiness.now();
    c.header("Cache-Control", "no-store");
    return c.text(state, state === "ready" ? 200 : 503);
  });
  routes.get("/version", (c) => c.json({ version }));
  return routes;
}
