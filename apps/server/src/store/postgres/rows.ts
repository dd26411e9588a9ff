/**
 * Rows of the update log in PostgreSQL: a whole batch decided and written in four questions,
 * however many rows it has.
 */
import { type Appended, type Binding, type NewRow, rowId } from "../log-port.ts";
import type { Query } from "./connect.ts";

type DocumentRow = { readonly id: number; readonly name: string; head: number };
/** Rows with the document they go to. */
type Placed = { readonly row: NewRow; readonly document: DocumentRow | undefined };
type Written = NewRow & { readonly document: number; readonly id: number };
/** What the log holds of what the batch brings, each by a text that names it. */
type Known = {
  readonly messages: Map<string, number>;
  readonly owners: Map<string, string>;
};

/**
 * Decides and writes rows inside a transaction of the caller's. The documents are locked first, all
 * at once and in the order of their ids: two batches over the same documents wait, and never for
 * each other. What follows sees everything that was committed before the locks were had.
 */
export async function writeRows(
  query: Query,
  rows: readonly NewRow[],
  at: number,
): Promise<readonly Appended[]> {
  const documents = await lockedDocuments(query, rows);
  const placed = rows.map((row) => {
    return { row, document: documents.get(`${row.key.board}/${row.key.document}`) };
  });
  const known = await knownOf(query, placed);
  const written: Written[] = [];
  const decided = placed.map((one) => decide(one, known, written));
  if (written.length > 0) await write(query, written, at);
  return decided;
}

async function lockedDocuments(query: Query, rows: readonly NewRow[]) {
  const keys = new Map(rows.map(({ key }) => [`${key.board}/${key.document}`, key]));
  const found = await query<{ id: number; board: string; name: string; head: number }>(
    `SELECT d.id, d.board, d.name, d.head
     FROM unnest($1::text[], $2::text[]) AS asked (board, name)
     JOIN documents d ON d.board = asked.board AND d.name = asked.name
     ORDER BY d.id FOR NO KEY UPDATE OF d`,
    [
      [...keys.values()].map(({ board }) => board),
      [...keys.values()].map(({ document }) => document),
    ],
  );
  return new Map(
    found.map(({ id, board, name, head }): [string, DocumentRow] => [
      `${board}/${name}`,
      { id, name, head },
    ]),
  );
}

async function knownOf(query: Query, placed: readonly Placed[]): Promise<Known> {
  const there = placed.flatMap(({ row, document }) =>
    document === undefined ? [] : [{ row, document: document.id }],
  );
  const messages = await query<{ document: number; message: string; id: number }>(
    `SELECT document, message, id FROM updates
     JOIN unnest($1::bigint[], $2::text[]) AS asked (document, message)
     USING (document, message)`,
    [there.map(({ document }) => document), there.map(({ row }) => row.message)],
  );
  const bindings = there.flatMap(({ row, document }) =>
    row.bindings.map(({ client }) => ({ client, document })),
  );
  const owners = bindings.length === 0 ? [] : await ownersOf(query, bindings);
  return {
    messages: new Map(messages.map(({ document, message, id }) => [`${document}/${message}`, id])),
    owners: new Map(
      owners.map(({ document, client, member }) => [`${document}/${client}`, member]),
    ),
  };
}

function ownersOf(
  query: Query,
  bindings: readonly { readonly client: number; readonly document: number }[],
) {
  return query<{ document: number; client: number; member: string }>(
    `SELECT document, client, member FROM client_ids
     JOIN unnest($1::bigint[], $2::bigint[]) AS asked (document, client)
     USING (document, client)`,
    [bindings.map(({ document }) => document), bindings.map(({ client }) => client)],
  );
}

/** Decides a row after those before it, and notes it as written when it is to be stored. */
function decide({ row, document }: Placed, known: Known, written: Written[]): Appended {
  if (document === undefined) return { kind: "gone" };
  const before = known.messages.get(`${document.id}/${row.message}`);
  if (before !== undefined) return { kind: "stored", row: rowId(before) };
  const nameOf = ({ client }: Binding) => `${document.id}/${client}`;
  const isForeign = row.bindings.some(
    (one) => (known.owners.get(nameOf(one)) ?? one.member) !== one.member,
  );
  if (isForeign) return { kind: "foreign" };
  document.head += 1;
  known.messages.set(`${document.id}/${row.message}`, document.head);
  const bindings = row.bindings.filter((one) => !known.owners.has(nameOf(one)));
  for (const one of bindings) known.owners.set(nameOf(one), one.member);
  written.push({ ...row, bindings, document: document.id, id: document.head });
  return { kind: "stored", row: rowId(document.head) };
}

async function write(query: Query, written: readonly Written[], at: number): Promise<void> {
  const bound = written.flatMap(({ document, id, bindings }) =>
    bindings.map(({ client, member }) => ({ document, id, client, member })),
  );
  const heads = new Map(written.map(({ document, id }) => [document, id]));
  await query(
    `WITH added AS (
       INSERT INTO updates (at, document, id, message, data)
       SELECT $1::bigint, * FROM unnest($2::bigint[], $3::bigint[], $4::text[], $5::bytea[])
     ), bound AS (
       INSERT INTO client_ids (document, client, member, row_id)
       SELECT * FROM unnest($6::bigint[], $7::bigint[], $8::text[], $9::bigint[])
     )
     UPDATE documents SET head = heads.head, edited_at = $1::bigint
     FROM unnest($10::bigint[], $11::bigint[]) AS heads (id, head)
     WHERE documents.id = heads.id`,
    [
      at,
      written.map(({ document }) => document),
      written.map(({ id }) => id),
      written.map(({ message }) => message),
      written.map(({ update }) => Buffer.from(update.buffer, update.byteOffset, update.length)),
      bound.map(({ document }) => document),
      bound.map(({ client }) => client),
      bound.map(({ member }) => member),
      bound.map(({ id }) => id),
      [...heads.keys()],
      [...heads.values()],
    ],
  );
}
