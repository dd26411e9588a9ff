/** Limits on what one address may ask for in a while, kept in memory. */
import { getConnInfo } from "@hono/node-server/conninfo";
import type { MiddlewareHandler } from "hono";
import { TokenBucket } from "../sync/token-bucket.ts";
import { Refused } from "./answers.ts";

export type Rate = { readonly perMinute: number; readonly burst: number };

/** Addresses remembered at once; the one heard of longest ago makes room. */
const addressesMax = 10_000;

/** Lets each address through at a rate, and refuses what is above it. */
export function limited(rate: Rate, now: () => number): MiddlewareHandler {
  const buckets = new Map<string, TokenBucket>();
  return async (c, next) => {
    const address = getConnInfo(c).remote.address ?? "unknown";
    const bucket = buckets.get(address) ?? new TokenBucket(rate.perMinute / 60, rate.burst, now());
    buckets.delete(address);
    buckets.set(address, bucket);
    const [oldest] = buckets.keys();
    if (buckets.size > addressesMax && oldest !== undefined) buckets.delete(oldest);
    if (!bucket.take(now())) {
      throw new Refused("too-many", "Too many requests from here; wait a minute and try again.");
    }
    await next();
  };
}
