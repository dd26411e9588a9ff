/** Which pages may act here: an exact list, and every write must say which page it comes from. */
import type { MiddlewareHandler } from "hono";
import { Refused } from "./answers.ts";

export type Origins = {
  /** Whether a request's Origin header is on the list; a missing one is not. */
  has(origin: string | undefined): boolean;
};

/**
 * Refuses a write from another page. Browsers send Origin with every POST and DELETE, so none is
 * refused too.
 */
export function writesFrom(origins: Origins): MiddlewareHandler {
  return async (c, next) => {
    const isRead = c.req.method === "GET" || c.req.method === "HEAD";
    const site = c.req.header("sec-fetch-site");
    const isSame = site === undefined || site === "same-origin";
    if (!isRead && !(isSame && origins.has(c.req.header("origin")))) {
      throw new Refused(
        "wrong-origin",
        "This request came from another page; open the board here.",
      );
    }
    await next();
  };
}
