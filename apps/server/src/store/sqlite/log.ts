/** The update log in SQLite. */

import { memberId } from "@halflap/board/talk";
import type { Database } from "better-sqlite3";
import { type DocumentKey, type NewRow, rowId, type UpdateLog } from "../log-port.ts";
import { writing } from "./open.ts";

/** The log in an open file; `now` gives milliseconds since 1970. */
export function sqliteLog(db: Database, now: () => number): UpdateLog {
  const append = db.transaction(rowWriter(db));
  const compact = compacting(db);
  return {
    async append(rows) {
      writing(() => append.immediate(rows, now()));
    },
    load: async (key) => loaded(db, key),
    async compact(key, last, snapshot) {
      writing(() => compact.immediate(key, last, snapshot));
    },
    newest: async (key) => newest(db, key),
  };
}

/** Writes rows inside a transaction of the caller's. */
export function rowWriter(db: Database): (rows: readonly NewRow[], at: number) => void {
  const find = db.prepare<[string, string], { id: number }>(
    "SELECT id FROM documents WHERE board = ? AND name = ?",
  );
  const insert = db.prepare("INSERT INTO updates (document, at, data) VALUES (?, ?, ?)");
  const bind = db.prepare("INSERT OR IGNORE INTO client_ids VALUES (?, ?, ?)");
  return (rows, at) => {
    for (const { key, update, bindings } of rows) {
      const document = find.get(key.board, key.document);
      if (document === undefined) continue;
      insert.run(document.id, at, update);
      for (const { client, member } of bindings) bind.run(document.id, client, member);
    }
  };
}

function loaded(db: Database, key: DocumentKey) {
  const rows = db
    .prepare<[string, string], { id: number; data: Buffer }>(
      `SELECT updates.id, data FROM updates JOIN documents ON documents.id = document
       WHERE board = ? AND name = ? ORDER BY updates.id`,
    )
    .all(key.board, key.document);
  const bindings = db
    .prepare<[string, string], { client: number; member: string }>(
      `SELECT client, member FROM client_ids JOIN documents ON documents.id = document
       WHERE board = ? AND name = ?`,
    )
    .all(key.board, key.document);
  return {
    rows: rows.map(({ id, data }) => ({ id: rowId(id), update: new Uint8Array(data) })),
    bindings: bindings.map(({ client, member }) => ({ client, member: memberId(member) })),
  };
}

/** The snapshot takes the place of the last row: later rows stay later, and no id comes twice. */
function compacting(db: Database) {
  const replace = db.prepare<[Uint8Array, number, string, string], { document: number }>(
    `UPDATE updates SET data = ? WHERE id = ?
     AND document = (SELECT id FROM documents WHERE board = ? AND name = ?) RETURNING document`,
  );
  const remove = db.prepare("DELETE FROM updates WHERE document = ? AND id < ?");
  return db.transaction((key: DocumentKey, last: number, snapshot: Uint8Array) => {
    const replaced = replace.get(snapshot, last, key.board, key.document);
    if (replaced !== undefined) remove.run(replaced.document, last);
  });
}

function newest(db: Database, key: DocumentKey) {
  const row = db
    .prepare<[string, string], { id: number | null }>(
      `SELECT max(updates.id) AS id FROM updates JOIN documents ON documents.id = document
       WHERE board = ? AND name = ?`,
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
