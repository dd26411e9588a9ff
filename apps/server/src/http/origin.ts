/** Which pages may act here: every write and every socket must say which page it comes from. */
import { isIP } from "node:net";
import type { Context, MiddlewareHandler } from "hono";
import { Refused } from "./answers.ts";

export type Origins = {
  /** Whether a page with this Origin header may act; a missing one may not. */
  has(origin: string | undefined, host: string | undefined): boolean;
};

/** Exactly the addresses on a list. */
export function listedOrigins(list: readonly string[]): Origins {
  const listed = new Set(list);
  return { has: (origin) => origin !== undefined && listed.has(origin) };
}

/**
 * The page that came from this server, at whatever number it was reached: the origin is the very
 * address in the Host header, and that is an IP address or localhost. Under a name anybody could
 * be meant, for a foreign name can be made to lead here (DNS rebinding); names go on a list.
 */
export const ownOrigins: Origins = {
  has(origin, host) {
    if (origin === undefined || host === undefined || !URL.canParse(`http://${host}`)) return false;
    const url = new URL(`http://${host}`);
    const isNumber = isIP(url.hostname.replace(/^\[|\]$/g, "")) !== 0;
    return origin === url.origin && (isNumber || url.hostname === "localhost");
  },
};

/** Whether a request comes from a page that may act. */
export function isFromOwnPage(origins: Origins, c: Context): boolean {
  return origins.has(c.req.header("origin"), c.req.header("host"));
}

/**
 * Refuses a write from another page. Browsers send Origin with every POST and DELETE, so none is
 * refused too.
 */
export function writesFrom(origins: Origins): MiddlewareHandler {
  return async (c, next) => {
    const isRead = c.req.method === "GET" || c.req.method === "HEAD";
    const site = c.req.header("sec-fetch-site");
    const isSame = site === undefined || site === "same-origin";
    if (!isRead && !(isSame && isFromOwnPage(origins, c))) {
      throw new Refused(
        "wrong-origin",
        "This request came from another page; open the board here.",
      );
    }
    await next();
  };
}
