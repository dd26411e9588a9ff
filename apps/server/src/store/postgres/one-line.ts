/** PostgreSQL over one connection without the limits that a server's work has. */
import pg from "pg";
import { connectionTo, type Query } from "./connect.ts";
import { DatabaseUnfit } from "./faults.ts";

/** How long a start waits for the database: it shall say what is wrong, and soon. */
const startMs = 900;

export type OneLine = { readonly query: Query; close(): Promise<void> };

/** Opens it. Rejects with DatabaseUnfit when it can't be had, in words without its password. */
export async function openOneLine(address: string): Promise<OneLine> {
  const {
    statement_timeout: _,
    query_timeout: __,
    lock_timeout: ___,
    idle_in_transaction_session_timeout: ____,
    ...settings
  } = connectionTo(address);
  const client = new pg.Client({ ...settings, connectionTimeoutMillis: startMs });
  client.on("error", () => undefined); // told by the question that waits
  try {
    await client.connect();
  } catch (fault) {
    throw new DatabaseUnfit(`the database ${placeOf(address)} can't be used: ${wordsOf(fault)}`);
  }
  return {
    query: async (text, values = []) => (await client.query(text, [...values])).rows,
    close: () => client.end(),
  };
}

/** A database's place without its user and password. */
export function placeOf(address: string): string {
  const { host, pathname } = new URL(address);
  return `${host}${pathname}`;
}

/** A line that can't be had has no words of its own, only a code. */
function wordsOf(fault: unknown): string {
  if (!(fault instanceof Error)) return String(fault);
  const code = "code" in fault ? String(fault.code) : "";
  return fault.message === "" ? code : fault.message;
}
