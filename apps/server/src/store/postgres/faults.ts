/** What went wrong in PostgreSQL: what may pass, what has no room, and what is a fault of ours. */
import pg from "pg";
import { StoreFull } from "../log-port.ts";

/** The database can't be used as it is; the message says why, in words for whoever runs it. */
export class DatabaseUnfit extends Error {
  override readonly name = "DatabaseUnfit";
}

/** A fault after which the same work may succeed: the line, the server, or a lock in the way. */
class Passing extends Error {
  override readonly name = "Passing";
}

/** Whether the work may be tried again. */
export function isPassing(fault: unknown): fault is Error {
  return fault instanceof Passing;
}

/**
 * SQLSTATE classes and codes of PostgreSQL's appendix A: connection exceptions (08), rollbacks by
 * the server (40), too many connections, operator intervention and timeouts (57, 55P03, 25P03,
 * 25P04), a server that only reads for now (25006), and faults of the machine (58).
 */
const passing = /^(08|40|57|58|53300|55P03|25P03|25P04|25006)/;
const diskFull = "53100";

/** A fault as the driver threw it, told as what it means to the store. */
export function translated(fault: unknown): unknown {
  if (!(fault instanceof pg.DatabaseError)) return new Passing("no answer", { cause: fault });
  if (fault.code === diskFull) return new StoreFull("the store is full", { cause: fault });
  return passing.test(fault.code ?? "") ? new Passing(fault.message, { cause: fault }) : fault;
}

/** Whether an index or constraint of this name was in the way. */
export function isAgainst(fault: unknown, constraint: string): boolean {
  return fault instanceof pg.DatabaseError && fault.constraint === constraint;
}
