/** The update log in PostgreSQL. */
import { memberId } from "@halflap/board/talk";
import {
  type DocumentKey,
  messageRememberedMs,
  type RowId,
  rowId,
  type UpdateLog,
} from "../log-port.ts";
import type { Postgres, Query } from "./connect.ts";
import { writeRows } from "./rows.ts";

/** The log in a database; `now` gives milliseconds since 1970. */
export function postgresLog(db: Postgres, now: () => number): UpdateLog {
  return {
    append: (rows) =>
      rows.length === 0
        ? Promise.resolve([])
        : db.write((query) => writeRows(query, rows, now()), "repeatable"),
    load: (key) =>
      db.read(async (query) => {
        const document = await documentOf(query, key);
        return { ...(await rowsAfter(query, document, 0)), head: rowId(document?.head ?? 0) };
      }),
    since: (key, after) =>
      db.read(async (query) => {
        const document = await documentOf(query, key);
        if (document !== undefined && after < document.folded) return { kind: "compacted" };
        return { kind: "rows", ...(await rowsAfter(query, document, after)) };
      }),
    heads: (keys) => heads(db, keys),
    compact: (key, last, snapshot) =>
      db.write((query) => compact(query, key, last, snapshot, now()), "repeatable"),
    newest: (key) => newest(db, key),
  };
}

type DocumentRow = { readonly id: number; readonly head: number; readonly folded: number };

async function documentOf(
  query: Query,
  { board, document }: DocumentKey,
  lock: "" | "FOR NO KEY UPDATE" = "",
): Promise<DocumentRow | undefined> {
  const text = `SELECT id, head, folded FROM documents WHERE board = $1 AND name = $2 ${lock}`;
  return (await query<DocumentRow>(text, [board, document]))[0];
}

async function rowsAfter(query: Query, document: DocumentRow | undefined, after: number) {
  if (document === undefined) return { rows: [], bindings: [] };
  const rows = await query<{ id: number; data: Buffer }>(
    "SELECT id, data FROM updates WHERE document = $1 AND id > $2 ORDER BY id",
    [document.id, Math.max(after, document.folded - 1)],
  );
  const bindings = await query<{ client: number; member: string }>(
    "SELECT client, member FROM client_ids WHERE document = $1 AND row_id > $2",
    [document.id, after],
  );
  return {
    rows: rows.map(({ id, data }) => ({ id: rowId(id), update: new Uint8Array(data) })),
    bindings: bindings.map(({ client, member }) => ({ client, member: memberId(member) })),
  };
}

async function heads(db: Postgres, keys: readonly DocumentKey[]): Promise<readonly RowId[]> {
  const found = await db.ask<{ head: number }>(
    `SELECT coalesce(d.head, 0) AS head
     FROM unnest($1::text[], $2::text[]) WITH ORDINALITY AS asked (board, name, nth)
     LEFT JOIN documents d ON d.board = asked.board AND d.name = asked.name ORDER BY nth`,
    [keys.map(({ board }) => board), keys.map(({ document }) => document)],
  );
  return found.map(({ head }) => rowId(head));
}

/** As in SQLite: the snapshot takes the place of the last row, and messages stay for their time. */
async function compact(
  query: Query,
  key: DocumentKey,
  last: RowId,
  snapshot: Uint8Array,
  at: number,
): Promise<boolean> {
  const document = await documentOf(query, key, "FOR NO KEY UPDATE");
  if (document === undefined || last <= document.folded || last > document.head) return false;
  const { id } = document;
  await query("UPDATE updates SET data = $3 WHERE document = $1 AND id = $2", [id, last, snapshot]);
  await query("DELETE FROM updates WHERE document = $1 AND id < $2 AND at < $3", [
    id,
    last,
    at - messageRememberedMs,
  ]);
  await query("UPDATE updates SET data = '' WHERE document = $1 AND id < $2 AND data <> ''", [
    id,
    last,
  ]);
  await query("UPDATE documents SET folded = $2 WHERE id = $1", [id, last]);
  return true;
}

async function newest(db: Postgres, { board, document }: DocumentKey) {
  const [found] = await db.ask<{ head: number | null; at: number | null }>(
    `SELECT max(head) FILTER (WHERE name = $2) AS head,
            max(edited_at) FILTER (WHERE name <> 'talk') AS at
     FROM documents WHERE board = $1`,
    [board, document],
  );
  return { row: rowId(found?.head ?? 0), boardEditedAt: found?.at ?? 0 };
}
