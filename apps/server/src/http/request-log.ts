/** One line a request to the API: its route's pattern, never its ids, bodies or cookies. */
import type { MiddlewareHandler } from "hono";
import { matchedRoutes } from "hono/route";
import type { Log } from "../ops/log.ts";

/** Logs method, pattern, status and how long it took. */
export function logged(log: Log, now: () => number): MiddlewareHandler {
  return async (c, next) => {
    const start = now();
    await next();
    const { method } = c.req;
    const ms = now() - start;
    const route = matchedRoutes(c).find(({ path }) => !path.endsWith("*"))?.path ?? "none";
    log.info("request", { method, route, status: c.res.status, ms });
  };
}
