/** What stands at the end of a run: the log as the database has it, and what every end holds. */
import { type DocumentName, documentNames } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import pg from "pg";
import * as Y from "yjs";
import { stateOf } from "../soak/schedule.ts";
import type { Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";

/** A row of the log as it lies there; `update` is empty where it was folded into a later one. */
export type LogRow = {
  readonly id: number;
  readonly message: string;
  readonly update: Uint8Array;
};

export type DocumentLog = {
  readonly document: DocumentName;
  /** How many rows the document has counted. */
  readonly head: number;
  /** The row into which those before it were folded. */
  readonly folded: number;
  readonly rows: readonly LogRow[]; // oldest first
};

/** What one end holds of a document, as `stateOf` says it, or why it holds nothing. */
export type Held = {
  readonly who: string;
  readonly document: DocumentName;
  readonly state: string;
};

export type Evidence = {
  readonly logs: readonly DocumentLog[];
  /** What each node told a newcomer. */
  readonly answers: readonly Held[];
  readonly pages: readonly Held[];
};

/** Reads the log of a board past all lines, in one moment. */
export async function readLogs(database: string, board: BoardId): Promise<readonly DocumentLog[]> {
  const client = new pg.Client({ connectionString: database });
  await client.connect();
  try {
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    const logs: DocumentLog[] = [];
    for (const document of documentNames) {
      const documents = await client.query<{ id: string; head: string; folded: string }>(
        "SELECT id, head, folded FROM documents WHERE board = $1 AND name = $2",
        [board, document],
      );
      const [found] = documents.rows;
      if (found === undefined) continue;
      const { rows } = await client.query<{ id: string; message: string; data: Buffer }>(
        "SELECT id, message, data FROM updates WHERE document = $1 ORDER BY id",
        [found.id],
      );
      const updates = rows.map(({ id, message, data }) => {
        return { id: Number(id), message, update: new Uint8Array(data) };
      });
      const [head, folded] = [Number(found.head), Number(found.folded)];
      logs.push({ document, head, folded, rows: updates });
    }
    return logs;
  } finally {
    await client.end();
  }
}

/** The document that a log tells, row by row. */
export function replay({ rows }: Pick<DocumentLog, "rows">): Y.Doc {
  const doc = new Y.Doc();
  for (const { update } of rows) if (update.length > 0) Y.applyUpdate(doc, update);
  return doc;
}

const comeAgainMs = 100;
const triesMax = 20;

/**
 * What a node tells somebody who comes with nothing, and comes again as the stock client does when
 * it is asked to; or why it is told nothing.
 */
export async function answerOf(
  visitor: Visitor,
  board: BoardId,
  document: DocumentName,
): Promise<string> {
  let why = "";
  for (let tries = 0; tries < triesMax; tries += 1) {
    const client = RawClient.open(visitor, board, document);
    const isTold = client.until(({ kind }) => kind === "step-2").then(() => true);
    client.sendStep1();
    const closed = client.closed.then(({ code, reason }) => {
      why = `closed with ${code} ${reason}`;
      return code;
    });
    const end = await Promise.race([isTold.catch(() => closed), closed]);
    if (end === true) {
      const state = stateOf(client.doc);
      await client.close();
      return state;
    }
    if (end !== closeCode.tryLater) break;
    await new Promise((resolve) => setTimeout(resolve, comeAgainMs));
  }
  return why;
}
