/** The update log in SQLite. */

import { memberId } from "@halflap/board/talk";
import type { Database } from "better-sqlite3";
import {
  type DocumentKey,
  type RowId,
  rowId,
  type Since,
  type StoredDocument,
  type UpdateLog,
} from "../log-port.ts";
import { onDisk, writing, writtenLater } from "./open.ts";
import { rowWriter } from "./rows.ts";

/** The log in an open file; `now` gives milliseconds since 1970. */
export function sqliteLog(db: Database, now: () => number): UpdateLog {
  const append = db.transaction(rowWriter(db));
  const compact = compacting(db);
  const read = reading(db);
  const reached = onDisk(db);
  // A file that a command took from everybody has no write-ahead log: there each commit syncs.
  const isLogged = db.pragma("journal_mode", { simple: true }) === "wal";
  const unsynced = <T>(write: () => T): T =>
    writing(db, isLogged ? () => writtenLater(db, write) : write);
  return {
    async append(rows) {
      const decided = unsynced(() => append.immediate(rows, now()));
      if (isLogged) await reached();
      return decided;
    },
    load: async (key) => read.whole(key),
    since: async (key, after) => read.since(key, after),
    heads: async (keys) => read.heads(keys),
    // Needs no sync: a power cut leaves the rows or the snapshot, and both say the same.
    compact: async (key, last, snapshot) => unsynced(() => compact.immediate(key, last, snapshot)),
    newest: async (key) => newest(db, key),
  };
}

const ofDocument = "documents ON documents.id = document WHERE board = ? AND name = ?";

function reading(db: Database) {
  const rowsAfter = db.prepare<[string, string, number], { id: number; data: Buffer }>(
    `SELECT updates.id, data FROM updates JOIN ${ofDocument}
     AND updates.id > max(?, folded - 1) ORDER BY updates.id`,
  );
  const bindingsAfter = db.prepare<[string, string, number], { client: number; member: string }>(
    `SELECT client, member FROM client_ids JOIN ${ofDocument} AND row_id > ?`,
  );
  const folded = db.prepare<[string, string], { folded: number }>(
    "SELECT folded FROM documents WHERE board = ? AND name = ?",
  );
  const heads = db.prepare<[string], { head: number | null }>(
    `SELECT (SELECT max(updates.id) FROM updates JOIN documents ON documents.id = document
             WHERE board = value ->> 0 AND name = value ->> 1) AS head
     FROM json_each(?) ORDER BY key`,
  );
  const after = ({ board, document }: DocumentKey, row: number) => ({
    rows: rowsAfter.all(board, document, row).map(({ id, data }) => {
      return { id: rowId(id), update: new Uint8Array(data) };
    }),
    // What stands from before there were rows beside bindings is bound by row 0.
    bindings: bindingsAfter.all(board, document, row || -1).map(({ client, member }) => {
      return { client, member: memberId(member) };
    }),
  });
  return {
    whole(key: DocumentKey): StoredDocument {
      const { rows, bindings } = after(key, 0);
      return { rows, bindings, head: rows.at(-1)?.id ?? rowId(0) };
    },
    since(key: DocumentKey, row: RowId): Since {
      const isBehind = row < (folded.get(key.board, key.document)?.folded ?? 0);
      return isBehind ? { kind: "compacted" } : { kind: "rows", ...after(key, row) };
    },
    heads(keys: readonly DocumentKey[]): readonly RowId[] {
      const asked = JSON.stringify(keys.map(({ board, document }) => [board, document]));
      return heads.all(asked).map(({ head }) => rowId(head ?? 0));
    },
  };
}

/** The snapshot takes the place of the last row: later rows stay later, and no id comes twice. */
function compacting(db: Database) {
  const fold = db.prepare<[number, string, string, number, number], { id: number }>(
    `UPDATE documents SET folded = ? WHERE board = ? AND name = ? AND folded < ?
     AND EXISTS (SELECT 1 FROM updates WHERE document = documents.id AND id = ?) RETURNING id`,
  );
  const replace = db.prepare("UPDATE updates SET data = ? WHERE id = ?");
  const forget = db.prepare("DELETE FROM updates WHERE document = ? AND id < ?");
  return db.transaction((key: DocumentKey, last: number, snapshot: Uint8Array) => {
    const document = fold.get(last, key.board, key.document, last, last)?.id;
    if (document === undefined) return false;
    replace.run(snapshot, last);
    forget.run(document, last);
    return true;
  });
}

function newest(db: Database, key: DocumentKey) {
  const row = db
    .prepare<[string, string], { id: number | null }>(
      `SELECT max(updates.id) AS id FROM updates JOIN ${ofDocument}`,
    )
    .get(key.board, key.document);
  const edited = db
    .prepare<[string], { at: number | null }>(
      `SELECT max(
         (SELECT at FROM updates WHERE document = documents.id ORDER BY id DESC LIMIT 1)
       ) AS at FROM documents WHERE board = ? AND name <> 'talk'`,
    )
    .get(key.board);
  return { row: rowId(row?.id ?? 0), boardEditedAt: edited?.at ?? 0 };
}
