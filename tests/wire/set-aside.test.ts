/**
 * W13: a document whose bytes were damaged in the store is set aside alone. Everything else goes
 * on, nothing of it is thrown away, and once it is mended it opens again.
 */
import { randomBytes } from "node:crypto";
import { join } from "node:path";
import { apiPath, type BoardId, type BoardsAnswer } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import Sqlite from "better-sqlite3";
import pg from "pg";
import { afterAll, afterEach, beforeAll, expect, test, vi } from "vitest";
import { makeBand } from "../support/band.ts";
import { expectOk, type Visitor } from "../support/browser-session.ts";
import { startPostgres, type TestPostgres } from "../support/postgres.ts";
import { type Close, RawClient } from "../support/raw-client.ts";
import { saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

let postgres: TestPostgres;
let database: string;
let server: TestServer | undefined;
beforeAll(async () => {
  postgres = await startPostgres();
  database = postgres.makeDatabase("set_aside");
});
afterAll(() => postgres.remove());
afterEach(async () => {
  if (server !== undefined) await removeTestServer(server);
});

/** Puts bytes in the place of a document's newest row, beside the server; answers the old ones. */
type Damage = (board: BoardId, document: string, bytes: Uint8Array) => Promise<Uint8Array>;

const newest = `(SELECT max(u.id) FROM updates u WHERE u.document = documents.id)`;

const inSqlite: Damage = async (board, document, bytes) => {
  const db = new Sqlite(join(server?.folder ?? "", "boards.sqlite"));
  const of = "FROM documents WHERE board = ? AND name = ?";
  const { id, row } = db
    .prepare<[string, string], { id: number; row: number }>(`SELECT id, ${newest} AS row ${of}`)
    .get(board, document) ?? { id: 0, row: 0 };
  const find = db.prepare<[number, number], { data: Buffer }>(
    "SELECT data FROM updates WHERE document = ? AND id = ?",
  );
  const before = find.get(id, row)?.data ?? Buffer.alloc(0);
  db.prepare("UPDATE updates SET data = ? WHERE document = ? AND id = ?").run(bytes, id, row);
  db.close();
  return before;
};

const inPostgres =
  (address: string): Damage =>
  async (board, document, bytes) => {
    const client = new pg.Client({ connectionString: address });
    await client.connect();
    const where = `updates.document = documents.id AND board = $1 AND name = $2
                   AND updates.id = ${newest}`;
    const find = `SELECT data FROM updates, documents WHERE ${where}`;
    const found = await client.query<{ data: Buffer }>(find, [board, document]);
    const put = `UPDATE updates SET data = $3 FROM documents WHERE ${where}`;
    await client.query(put, [board, document, bytes]);
    await client.end();
    return found.rows[0]?.data ?? Buffer.alloc(0);
  };

/** Comes again, as the stock client does, until a close is no longer one of those that pass. */
async function refusedFor(visitor: Visitor, board: BoardId, document: string): Promise<Close> {
  for (;;) {
    const close = await RawClient.open(visitor, board, document).closed;
    if (close.code !== closeCode.tryLater) return close;
  }
}

async function saves(client: RawClient, key: string): Promise<void> {
  say(client, key, 1);
  await client.until((frame) => frame.kind === "saved" && frame.decided === 1);
}

async function metricOf(started: TestServer, name: string): Promise<string | undefined> {
  const address = /"metrics":"([^"]+)"/.exec(started.logs())?.[1] ?? "";
  const text = await (await fetch(address)).text();
  return text.split("\n").find((line) => line.startsWith(name));
}

test.each(["SQLite", "PostgreSQL"])("%s: one document is set aside alone", async (kind) => {
  const isShared = kind === "PostgreSQL";
  const variables = {
    HALFLAP_METRICS: "0",
    ...(isShared ? { HALFLAP_DATABASE_URL: database } : {}),
  };
  const damage = isShared ? inPostgres(database) : inSqlite;
  server = await startTestServer({ variables });
  const { address, folder } = server;
  const { board, leader } = await makeBand(address);
  const { visitor } = leader;
  const other = (await visitor.makeBoard("Ada")).board;
  const first = await RawClient.synced(visitor, board, "board");
  await saves(first, "before");
  const elsewhere = await RawClient.synced(visitor, other, "board");
  await first.close();

  const sound = await damage(board, "board", randomBytes(40));
  expect(await refusedFor(visitor, board, "board")).toEqual({
    code: closeCode.unreadable,
    reason: "the server can't read this document",
  });
  expect(server.logs()).toContain(`"event":"document-set-aside"`);
  expect(server.logs()).toContain(`"board":"${board}","document":"board"`);
  expect(await metricOf(server, 'halflap_documents_set_aside{document="board"}')).toMatch(/ 1$/);
  await saves(elsewhere, "here");
  await (await RawClient.synced(visitor, board, "lane-upper")).close();
  const { boards } = expectOk(await visitor.ask("GET", apiPath.boards)) as BoardsAnswer;
  expect(boards.map(({ id, title }) => [id === board, title]).sort()).toEqual([
    [false, "Slow Train"],
    [true, ""],
  ]);
  await damage(board, "talk", randomBytes(40));
  expectOk(await visitor.ask("POST", apiPath.name(board), { name: "Adele" }));

  // Mended, it is still left alone for its time; a start begins anew.
  await damage(board, "board", sound);
  expect((await refusedFor(visitor, board, "board")).code).toBe(closeCode.unreadable);
  await server.stop();
  const port = new URL(address).port;
  server = await startTestServer({ folder, variables: { ...variables, HALFLAP_PORT: port } });
  const again = await RawClient.synced(visitor, board, "board");
  expect(Object.keys(saidIn(again.doc))).toEqual(["before"]);
  await again.close();
});
