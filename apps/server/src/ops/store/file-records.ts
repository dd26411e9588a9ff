/** The tables of a SQLite file. */
import type { Database } from "better-sqlite3";
import { partsReader } from "../../store/sqlite/take-parts.ts";
import type { Ask, Records, TableFault } from "./records.ts";

/** The tables of an open file, which is closed with them. */
export function fileRecords(db: Database): Records {
  return {
    ask: askingFile(db),
    moment: (work) => within(db, "BEGIN", work),
    soundOf: async (take) => Buffer.from(partsReader(db)(take).buffer),
    faults: async () => [...fileFaults(db), ...missingRows(db)],
    close: async () => void db.close(),
  };
}

/** Does work in a transaction that begins as told, and takes all back when it fails. */
export async function within<T>(db: Database, begin: string, work: () => Promise<T>): Promise<T> {
  db.exec(begin);
  try {
    const result = await work();
    db.exec("COMMIT");
    return result;
  } catch (fault) {
    if (db.inTransaction) db.exec("ROLLBACK");
    throw fault;
  }
}

/** Asks an open file. */
export function askingFile(db: Database): Ask {
  return async <R>(text: string, values: readonly unknown[] = []) => {
    const statement = db.prepare<[Readonly<Record<string, unknown>>], R>(text);
    const named = Object.fromEntries(values.map((value, i) => [String(i + 1), value]));
    if (statement.reader) return statement.all(named);
    statement.run(named);
    return [];
  };
}

function fileFaults(db: Database): readonly TableFault[] {
  const broken = db.prepare<[], { integrity_check: string }>("PRAGMA integrity_check").all();
  const pages = broken.map((row) => row.integrity_check).filter((text) => text !== "ok");
  const lone = db.prepare<[], { table: string }>("PRAGMA foreign_key_check").all();
  const rows = lone.map(({ table }) => `a row of ${table} belongs to nothing`);
  return [...pages, ...rows].map((why) => ({ board: undefined, part: "file", why }));
}

/** Each document is made with a row, and what was folded stands in one. */
function missingRows(db: Database): readonly TableFault[] {
  const found = db
    .prepare<[], { board: string; name: string; folded: number }>(
      `SELECT board, name, folded FROM documents
       WHERE NOT EXISTS (SELECT 1 FROM updates WHERE document = documents.id
                         AND (folded = 0 OR updates.id = folded))
       ORDER BY board, name`,
    )
    .all();
  return found.map(({ board, name, folded }) => {
    const why = folded === 0 ? "it has lost all its rows" : `its folded row ${folded} is missing`;
    return { board, part: name, why };
  });
}
