/**
 * PostgreSQL as the store speaks with it: a few connections, one transaction a piece of work, and
 * patience while it can't be reached.
 */
import pg from "pg";
import { StoreAway } from "../log-port.ts";
import { isPassing, translated } from "./faults.ts";

export type Row = Readonly<Record<string, unknown>>;
/** Asks one statement; its rows. */
export type Query = <R extends Row>(text: string, values?: readonly unknown[]) => Promise<R[]>;

export type Postgres = {
  /** One statement that only reads. */
  ask: Query;
  /** Reads that see one moment of the store. */
  read<T>(work: (query: Query) => Promise<T>): Promise<T>;
  /**
   * A transaction. It is tried again while that is safe: before its commit was sent, and after it
   * only when it is `repeatable`, done twice as once. Rejects with StoreFull or StoreAway.
   */
  write<T>(work: (query: Query) => Promise<T>, mode?: "once" | "repeatable"): Promise<T>;
  close(): Promise<void>;
};

const connectionsMax = 6;
const connectMs = 2_000;
const statementMs = 10_000;
/** Above the server's own limit: only a server that has stopped does not answer in time. */
const answerMs = statementMs + 2_000;
const lockMs = 4_000;
/** A node that froze in a transaction must not hold its documents for long. */
const idleInTransactionMs = 2_000;
/** How long work waits for a store that is away; edits that wait are bounded by the save loop. */
const usualPatienceMs: PatienceMs = { ask: 5_000, once: 5_000, repeatable: 30_000 };
const firstPauseMs = 50;
const pauseMsMax = 1_000;

/** What a connection calls itself, for whoever looks who is connected. */
export const applicationName = "halflap";

/** In milliseconds: for reads, for writes tried once, and for those that may be repeated. */
export type PatienceMs = { readonly [kind in "ask" | "once" | "repeatable"]: number };

/** Settings of a connection to the database at an address. */
export function connectionTo(address: string): pg.PoolConfig {
  return {
    connectionString: address,
    connectionTimeoutMillis: connectMs,
    statement_timeout: statementMs,
    query_timeout: answerMs,
    lock_timeout: lockMs,
    idle_in_transaction_session_timeout: idleInTransactionMs,
    application_name: applicationName,
    keepAlive: true,
    types: { getTypeParser },
  };
}

/** Connects when first asked. `onFault` hears of connections that end while nobody uses them. */
export function connect(
  address: string,
  onFault: (fault: unknown) => void,
  patienceMs = usualPatienceMs,
): Postgres {
  const pool = new pg.Pool({ ...connectionTo(address), max: connectionsMax });
  pool.on("error", onFault);
  const work = <T>(run: (query: Query, client: pg.PoolClient) => Promise<T>) => using(pool, run);
  return {
    ask: (text, values) => patiently(patienceMs.ask, () => work((query) => query(text, values))),
    read: (reads) => patiently(patienceMs.ask, () => work((query) => reading(query, reads))),
    write: (writes, mode = "once") =>
      patiently(patienceMs[mode], () =>
        work((query) => transacting(query, writes, mode === "repeatable")),
      ),
    close: () => pool.end(),
  };
}

/** Whole numbers of 64 bits come as numbers: ids, clocks and counts here stay far below 2^53. */
function getTypeParser(...[type, format]: Parameters<typeof pg.types.getTypeParser>) {
  return type === pg.types.builtins.INT8 ? Number : pg.types.getTypeParser(type, format);
}

async function using<T>(
  pool: pg.Pool,
  run: (query: Query, client: pg.PoolClient) => Promise<T>,
): Promise<T> {
  const client = await pool.connect().catch((fault: unknown) => {
    throw translated(fault);
  });
  // A connection on which anything went wrong may hold an answer still to come, or a transaction.
  let isSound = false;
  const query: Query = async (text, values = []) => {
    try {
      return (await client.query(text, [...values])).rows;
    } catch (fault) {
      throw translated(fault);
    }
  };
  const ignore = () => undefined; // told by the query that waits
  client.on("error", ignore);
  try {
    const result = await run(query, client);
    isSound = true;
    return result;
  } finally {
    client.off("error", ignore);
    client.release(!isSound);
  }
}

async function reading<T>(query: Query, work: (query: Query) => Promise<T>): Promise<T> {
  await query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
  const result = await work(query);
  await query("COMMIT");
  return result;
}

async function transacting<T>(
  query: Query,
  work: (query: Query) => Promise<T>,
  isRepeatable: boolean,
): Promise<T> {
  await query("BEGIN ISOLATION LEVEL READ COMMITTED");
  const result = await work(query);
  try {
    await query("COMMIT");
  } catch (fault) {
    if (isRepeatable || !isPassing(fault)) throw fault;
    throw new StoreAway("the store did not say whether it stored", { cause: fault });
  }
  return result;
}

/** Tries again, less and less often, while the fault may pass. */
async function patiently<T>(budgetMs: number, attempt: () => Promise<T>): Promise<T> {
  const end = performance.now() + budgetMs;
  for (let pauseMs = firstPauseMs; ; pauseMs = Math.min(2 * pauseMs, pauseMsMax)) {
    try {
      return await attempt();
    } catch (fault) {
      if (!isPassing(fault)) throw fault;
      if (performance.now() + pauseMs > end) {
        throw new StoreAway("the store can't be reached", { cause: fault.cause });
      }
      await passed(pauseMs);
    }
  }
}

function passed(ms: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, ms);
  });
}
