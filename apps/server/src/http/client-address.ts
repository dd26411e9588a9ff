/** Whom a request counts for where rates are kept. */
import { getConnInfo } from "@hono/node-server/conninfo";
import type { Context } from "hono";
import { countedAddress, membership, type Networks } from "./networks.ts";

/** An address to count by; never told to anybody. */
export type AddressOf = (c: Context) => string;

/** Reads whom a request counts for, believing X-Forwarded-For from these proxies alone. */
export function addressesBehind(trusted: Networks): AddressOf {
  const isTrusted = membership(trusted);
  return (c) =>
    countedAddress(getConnInfo(c).remote.address, c.req.header("x-forwarded-for"), isTrusted);
}
