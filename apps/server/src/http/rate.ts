/** Limits on what one address, or one member, may ask for in a while, kept in memory. */
import type { MiddlewareHandler } from "hono";
import { TokenBucket } from "../sync/token-bucket.ts";
import { Refused } from "./answers.ts";
import type { AddressOf } from "./client-address.ts";

export type Rate = { readonly perMinute: number; readonly burst: number };

/** Addresses, or whatever else is held to a rate, remembered at once. */
const keysMax = 10_000;

/** Holds each of many to a rate of its own; the one heard of longest ago makes room. */
export class Rates {
  private readonly buckets = new Map<string, TokenBucket>();
  private readonly rate: Rate;
  private readonly now: () => number;

  constructor(rate: Rate, now: () => number) {
    this.rate = rate;
    this.now = now;
  }

  /** Whether one more is within the rate. */
  take(key: string): boolean {
    const { perMinute, burst } = this.rate;
    const now = this.now();
    const bucket = this.buckets.get(key) ?? new TokenBucket(perMinute / 60, burst, now);
    this.buckets.delete(key);
    this.buckets.set(key, bucket);
    const [oldest] = this.buckets.keys();
    if (this.buckets.size > keysMax && oldest !== undefined) this.buckets.delete(oldest);
    return bucket.take(now);
  }
}

/** Lets each address through at a rate, and refuses what is above it. */
export function limited(
  rate: Rate,
  { now, addressOf }: { readonly now: () => number; readonly addressOf: AddressOf },
): MiddlewareHandler {
  const rates = new Rates(rate, now);
  return async (c, next) => {
    if (!rates.take(addressOf(c))) {
      throw new Refused("too-many", "Too many requests from here; wait a minute and try again.");
    }
    await next();
  };
}
