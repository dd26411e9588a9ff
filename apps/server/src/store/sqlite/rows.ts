/** Rows of the update log in SQLite: each decided, and written if it may be. */
import type { Database } from "better-sqlite3";
import { type Appended, type Binding, type DocumentKey, type NewRow, rowId } from "../log-port.ts";

/** Decides and writes rows inside a transaction of the caller's. */
export function rowWriter(
  db: Database,
): (rows: readonly NewRow[], at: number) => readonly Appended[] {
  const find = db.prepare<[string, string], { id: number }>(
    "SELECT id FROM documents WHERE board = ? AND name = ?",
  );
  const insert = db.prepare("INSERT INTO updates (document, at, data) VALUES (?, ?, ?)");
  const bound = binder(db);
  return (rows, at) => {
    // Rows of one document come together, and none is made or ended within the transaction.
    const documents = new Map<DocumentKey, number | undefined>();
    const idOf = (key: DocumentKey) => {
      if (!documents.has(key)) documents.set(key, find.get(key.board, key.document)?.id);
      return documents.get(key);
    };
    return rows.map(({ key, update, bindings }): Appended => {
      const document = idOf(key);
      if (document === undefined) return { kind: "gone" };
      if (!bindings.every((binding) => bound.mayBe(document, binding))) return { kind: "foreign" };
      const row = rowId(Number(insert.run(document, at, update).lastInsertRowid));
      for (const binding of bindings) bound.write(document, binding, row);
      return { kind: "stored", row };
    });
  };
}

function binder(db: Database) {
  const find = db.prepare<[number, number], { member: string }>(
    "SELECT member FROM client_ids WHERE document = ? AND client = ?",
  );
  const bind = db.prepare(
    "INSERT OR IGNORE INTO client_ids (document, client, member, row_id) VALUES (?, ?, ?, ?)",
  );
  return {
    mayBe(document: number, { client, member }: Binding): boolean {
      const owner = find.get(document, client)?.member;
      return owner === undefined || owner === member;
    },
    write(document: number, { client, member }: Binding, row: number): void {
      bind.run(document, client, member, row);
    },
  };
}
