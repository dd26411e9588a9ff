/** Logs that are wrong in one place, which the checker must catch. */
import { connect } from "node:net";
import { rowId, type StoredRow, type UpdateLog } from "@halflap/server/log-port";
import { makeMessageId } from "@halflap/server/secret";
import pg from "pg";
import * as Y from "yjs";

/** How long a row waits that was said to be stored. */
const lateMs = 300;
/** How long a fold waits between its halves: it is killed there. */
const betweenMs = 10_000;

type Broken = (log: UpdateLog) => Partial<UpdateLog>;

/** Each by what it does; the rest of the log is as it was. */
export const brokenLogs = {
  "says stored before the commit": (log: UpdateLog): Partial<UpdateLog> => {
    let given = 1_000_000;
    return {
      append: async (rows) => {
        setTimeout(() => void log.append(rows), lateMs);
        return rows.map(() => {
          given += 1;
          return { kind: "stored", row: rowId(given) };
        });
      },
    };
  },
  "stores again under another message": (log: UpdateLog): Partial<UpdateLog> => ({
    append: async (rows) => {
      await log.append(rows);
      return log.append(rows.map((row) => ({ ...row, message: makeMessageId() })));
    },
  }),
  "stores no deletion that stands alone": (log: UpdateLog): Partial<UpdateLog> => {
    let given = 2_000_000;
    return {
      append: async (rows) => {
        const kept = rows.filter(({ update }) => Y.decodeUpdate(update).structs.length > 0);
        const decided = [...(await log.append(kept))];
        return rows.map((row) => {
          given += 1;
          const told = kept.includes(row) ? decided.shift() : undefined;
          return told ?? { kind: "stored", row: rowId(given) };
        });
      },
    };
  },
  "skips rows of others": (log: UpdateLog): Partial<UpdateLog> => ({
    since: async (key, after) => {
      const since = await log.since(key, after);
      return since.kind === "rows" ? { ...since, rows: since.rows.slice(1) } : since;
    },
  }),
  "follows nobody": (): Partial<UpdateLog> => ({
    heads: async (keys) => keys.map(() => rowId(0)),
  }),
  "follows nobody once a document can't be read": (log: UpdateLog): Partial<UpdateLog> => {
    let isPoisoned = false;
    return {
      heads: async (keys) => {
        // In this order: what a head tells of is then among the rows that are looked at.
        const heads = await log.heads(keys);
        const documents = await Promise.all(keys.map((key) => log.load(key)));
        isPoisoned ||= documents.some(({ rows }) => !rows.every(isReadable));
        if (isPoisoned) throw new Error("a document can't be read");
        return heads;
      },
    };
  },
  "takes no notice of folds": (log: UpdateLog): Partial<UpdateLog> => ({
    since: async (key, after) => {
      const since = await log.since(key, after);
      return since.kind === "rows" ? since : { kind: "rows", rows: [], bindings: [] };
    },
  }),
  "folds in two commits": (log: UpdateLog): Partial<UpdateLog> => ({
    compact: async (key, last, snapshot) => {
      await emptied(
        `UPDATE updates SET data = '' FROM documents
         WHERE document = documents.id AND board = $1 AND name = $2 AND updates.id < $3`,
        [key.board, key.document, last],
      );
      await new Promise((resolve) => setTimeout(resolve, betweenMs));
      return log.compact(key, last, snapshot);
    },
  }),
  "waits for Redis before it says stored": (log: UpdateLog): Partial<UpdateLog> => ({
    append: async (rows) => {
      const decided = await log.append(rows);
      await pong();
      return decided;
    },
  }),
} satisfies Readonly<Record<string, Broken>>;

export type BrokenName = keyof typeof brokenLogs;

/** A log that is wrong in the way of that name. Throws where there is none. */
export function brokenLog(log: UpdateLog, name: string): UpdateLog {
  const [found] = Object.entries(brokenLogs).filter(([known]) => known === name);
  if (found === undefined) throw new Error(`there is no log that ${name}`);
  return { ...log, ...found[1](log) };
}

async function emptied(statement: string, values: readonly unknown[]): Promise<void> {
  const client = new pg.Client({ connectionString: process.env.HALFLAP_DATABASE_URL ?? "" });
  await client.connect();
  await client.query(statement, [...values]);
  await client.end();
}

function pong(): Promise<void> {
  const { port, hostname } = new URL(process.env.HALFLAP_REDIS_URL ?? "");
  return new Promise((resolve) => {
    const socket = connect(Number(port), hostname, () => socket.write("PING\r\n"));
    socket.on("error", () => resolve());
    socket.once("data", () => {
      socket.destroy();
      resolve();
    });
  });
}

function isReadable({ update }: StoredRow): boolean {
  try {
    Y.decodeUpdate(update);
    return true;
  } catch {
    return false;
  }
}
