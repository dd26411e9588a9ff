/** The tables of a PostgreSQL database. */
import { DatabaseUnfit } from "../../store/postgres/faults.ts";
import { type OneLine, openOneLine, placeOf } from "../../store/postgres/one-line.ts";
import { schemaVersion } from "../../store/postgres/schema.ts";
import { CantDo } from "./place.ts";
import type { Ask, Records, TableFault } from "./records.ts";

/**
 * The tables of the database at an address. Rejects with CantDo when it can't be reached, holds no
 * store, or one of another release.
 */
export async function openDatabaseRecords(address: string): Promise<Records> {
  const line = await openOneLine(address).catch((fault: unknown) => {
    throw unfitWords(fault);
  });
  try {
    await requireCurrent(line, address);
  } catch (fault) {
    await line.close();
    throw fault;
  }
  const ask: Ask = line.query;
  return {
    ask,
    moment: (work) => within(line, "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY", work),
    soundOf: (take) => soundOf(ask, take),
    faults: () => missingRows(ask),
    close: () => line.close(),
  };
}

/** As CantDo what the database can't be used for; every other fault as it is. */
export function unfitWords(fault: unknown): unknown {
  if (!(fault instanceof DatabaseUnfit)) return fault;
  return new CantDo(`${capital(fault.message).replace(/\.$/, "")}.`);
}

/** Does work in a transaction that begins as told, and takes all back when it fails. */
export async function within<T>(
  { query }: Pick<OneLine, "query">,
  begin: string,
  work: () => Promise<T>,
): Promise<T> {
  await query(begin);
  try {
    const result = await work();
    await query("COMMIT");
    return result;
  } catch (fault) {
    await query("ROLLBACK");
    throw fault;
  }
}

async function requireCurrent({ query }: OneLine, address: string): Promise<void> {
  const place = placeOf(address);
  const [table] = await query<{ is_there: boolean }>(
    "SELECT to_regclass('halflap_schema') IS NOT NULL AS is_there",
  );
  if (table?.is_there !== true) throw new CantDo(`The database ${place} holds no store.`);
  const [found] = await query<{ version: number }>("SELECT version FROM halflap_schema");
  if (found?.version === schemaVersion) return;
  const advice = "start a server of this release on it once, or use the program of its release";
  throw new CantDo(
    `The database ${place} has schema ${found?.version ?? 0}, and this program reads ` +
      `${schemaVersion}: ${advice}.`,
  );
}

async function soundOf(ask: Ask, take: string): Promise<Buffer> {
  const [found] = await ask<{ sound: Buffer }>("SELECT sound FROM takes WHERE id = $1", [take]);
  return found?.sound ?? Buffer.alloc(0);
}

/** Each document counts its own rows, so that one that was lost shows. */
async function missingRows(ask: Ask): Promise<readonly TableFault[]> {
  const found = await ask<{ board: string; name: string; there: number; counted: number }>(
    `SELECT board, name, count(updates.id) AS there,
            head - greatest(folded, 1) + 1 AS counted
     FROM documents LEFT JOIN updates ON document = documents.id AND updates.id >= folded
     GROUP BY documents.id
     HAVING count(updates.id) <> head - greatest(folded, 1) + 1
     ORDER BY board, name`,
  );
  return found.map(({ board, name, there, counted }) => {
    return { board, part: name, why: `it has ${there} rows of the ${counted} that were counted` };
  });
}

function capital(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}
