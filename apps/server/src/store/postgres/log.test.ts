/**
 * The log that several nodes share: ids in the order of the commits, rows once however often they
 * are sent, and patience while the database is away.
 */
import type { BoardId } from "@halflap/wire/api";
import pg from "pg";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type DocumentKey, type NewRow, rowId, StoreAway, StoreFull } from "../log-port.ts";
import type { People } from "../people-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../secret.ts";
import type { Store } from "../store.ts";
import { makeTrialDatabase } from "../trial-stores.ts";
import { connect, connectionTo, type Query } from "./connect.ts";
import { postgresLog } from "./log.ts";
import { writeRows } from "./rows.ts";
import { openPostgres } from "./store.ts";
import { startTrialLine, type TrialLine } from "./trial-line.ts";

let database: Awaited<ReturnType<typeof makeTrialDatabase>>;
let line: TrialLine;
let stores: Store[];
let store: Store;
const board = makeBoardId();
const key: DocumentKey = { board, document: "board" };
const lane: DocumentKey = { board, document: "lane-upper" };

const opened = async () => {
  const store = await openPostgres({
    address: database.address,
    now: () => 1,
    onFault: () => undefined,
  });
  stores.push(store);
  return store;
};

beforeEach(async () => {
  database = await makeTrialDatabase();
  line = await startTrialLine(database.address);
  stores = [];
  store = await opened();
  await makeBoard(store.people, board);
});

afterEach(async () => {
  await Promise.all(stores.map((each) => each.close()));
  await line.close();
  await database.remove();
});

test("under four writers ids are dense, and who reads on misses nothing", async () => {
  const writers = await Promise.all(Array.from({ length: 4 }, opened));
  const all = { left: writers.length };
  const sent = writers.map(async (writer, w) => {
    for (let i = 0; i < 40; i += 1) {
      // In an order of its own: who locks in the order of the rows waits in a circle.
      const keys = (i + w) % 2 === 0 ? [key, lane, key] : [lane, key, key];
      await writer.log.append(keys.map((each) => rowOf(each, w)));
    }
    all.left -= 1;
  });
  const read: number[] = [];
  do {
    const since = await store.log.since(key, rowId(read.at(-1) ?? 0));
    if (since.kind === "rows") read.push(...since.rows.map(({ id }) => id));
  } while (all.left > 0 || (read.at(-1) ?? 0) < Number((await store.log.heads([key]))[0]));
  await Promise.all(sent);
  expect(read).toEqual(Array.from({ length: 4 * 40 * 2 }, (_, i) => i + 1));
  expect(await store.log.heads([lane, key])).toEqual([160, 320]);
});

test("a row written first and committed last comes first: who reads on finds both", async () => {
  const slow = await transaction();
  await writeRows(slow.query, [rowOf(key, 1)], 1);
  const second = store.log.append([rowOf(key, 2)]);
  await untilBlocked(slow.query);
  expect(await store.log.heads([key])).toEqual([0]);
  await slow.commit();
  expect(await second).toEqual([{ kind: "stored", row: 2 }]);
  expect(await store.log.since(key, rowId(0))).toMatchObject({ rows: [{ id: 1 }, { id: 2 }] });
});

test("with ids from a sequence, the same reader loses the row committed last", async () => {
  const { query: ask, commit } = await transaction();
  await ask("CREATE TABLE trial (id bigserial PRIMARY KEY, byte int)");
  await commit();
  const insert = "INSERT INTO trial (byte) VALUES ($1)";
  const slow = await transaction();
  await slow.query(insert, [1]);
  const fast = await transaction();
  await fast.query(insert, [2]);
  await fast.commit();
  const readBehind = async (last: number) => {
    const reader = await transaction();
    const rows = await reader.query<{ id: number }>("SELECT id FROM trial WHERE id > $1", [last]);
    await reader.commit();
    return rows.map(({ id }) => id);
  };
  expect(await readBehind(0)).toEqual([2]);
  await slow.commit();
  expect(await readBehind(2)).toEqual([]);
});

test("a row whose commit was answered by nobody is sent again and stored once", async () => {
  const db = connect(line.address, () => undefined);
  const log = postgresLog(db, () => 1);
  await log.append([rowOf(key, 1)]);
  line.swallowAnswerTo("COMMIT");
  expect(await log.append([rowOf(key, 2), rowOf(lane, 2)])).toEqual([
    { kind: "stored", row: 2 },
    { kind: "stored", row: 1 },
  ]);
  expect(line.swallowed).toBe(1);
  expect(bytesOf(await store.log.load(key))).toEqual([1, 2]);
  expect(bytesOf(await store.log.load(lane))).toEqual([2]);
  await db.close();
});

test("with a new message at each try, the same cut stores the row twice", async () => {
  const db = connect(line.address, () => undefined);
  line.swallowAnswerTo("COMMIT");
  const decided = await db.write((query) => writeRows(query, [rowOf(key, 1)], 1), "repeatable");
  expect(decided).toEqual([{ kind: "stored", row: 2 }]);
  expect(bytesOf(await store.log.load(key))).toEqual([1, 1]);
  await db.close();
});

test("work that may be done once only is not sent again after its commit", async () => {
  const db = connect(line.address, () => undefined);
  line.swallowAnswerTo("COMMIT");
  let tries = 0;
  const work = db.write(async (query) => {
    tries += 1;
    await writeRows(query, [rowOf(key, 1)], 1);
  });
  await expect(work).rejects.toThrow(StoreAway);
  expect(tries).toBe(1);
  // It was stored all the same: this is what nobody could know.
  expect(bytesOf(await store.log.load(key))).toEqual([1]);
  await db.close();
});

test("while the database is away rows wait, and are stored when it is back", async () => {
  const db = connect(line.address, () => undefined);
  const log = postgresLog(db, () => 1);
  await log.append([rowOf(key, 1)]);
  await line.cut();
  const waiting = log.append([rowOf(key, 2)]);
  const reading = log.load(key);
  await line.tried(3);
  expect(bytesOf(await store.log.load(key))).toEqual([1]);
  line.mend();
  expect(await waiting).toEqual([{ kind: "stored", row: 2 }]);
  expect(bytesOf(await reading)[0]).toBe(1);
  expect(bytesOf(await store.log.load(key))).toEqual([1, 2]);
  await db.close();
});

test("when it stays away longer than is waited, that is told, and nothing is stored", async () => {
  const patience = { ask: 100, once: 100, repeatable: 400 };
  const db = connect(line.address, () => undefined, patience);
  const log = postgresLog(db, () => 1);
  await line.cut();
  await expect(log.append([rowOf(key, 1)])).rejects.toThrow(StoreAway);
  await expect(log.load(key)).rejects.toThrow(StoreAway);
  line.mend();
  expect((await log.load(key)).rows).toEqual([]);
  await db.close();
});

test("a full disk is told as full, and nothing of the batch or the take is stored", async () => {
  const { query, commit } = await transaction();
  await query(`CREATE FUNCTION no_room() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION 'no room' USING ERRCODE = 'disk_full'; END $$`);
  await query(`CREATE TRIGGER full_1 BEFORE INSERT ON updates FOR EACH ROW
    WHEN (length(NEW.data) > 1) EXECUTE FUNCTION no_room()`);
  await commit();
  const large = { ...rowOf(key, 2), update: new Uint8Array(2) };
  await expect(store.log.append([rowOf(key, 1), large])).rejects.toThrow(StoreFull);
  expect((await store.log.load(key)).rows).toEqual([]);
  expect(await store.log.append([rowOf(key, 3)])).toEqual([{ kind: "stored", row: 1 }]);
});

test("two nodes that give one client id to two members: the first stands", async () => {
  const other = await opened();
  const bound = () => ({ ...rowOf(key, 1), bindings: [{ client: 7, member: makeMemberId() }] });
  const both = await Promise.all([store.log.append([bound()]), other.log.append([bound()])]);
  expect(both.map(([one]) => one?.kind).sort()).toEqual(["foreign", "stored"]);
  expect((await store.log.load(key)).bindings).toHaveLength(1);
});

test("a board removed while rows come to it: each batch is stored or gone", async () => {
  const other = await opened();
  const kinds: (string | undefined)[] = [];
  const writing = (async () => {
    while (kinds.at(-1) !== "gone") {
      const decided = await other.log.append([rowOf(lane, 1), rowOf(key, 1)]);
      expect(new Set(decided.map(({ kind }) => kind)).size).toBe(1);
      kinds.push(decided[0]?.kind);
    }
  })();
  while (kinds.length < 3) await new Promise((resolve) => setImmediate(resolve));
  await store.people.removeBoard(board);
  await writing;
  expect(kinds.slice(0, 3)).toEqual(["stored", "stored", "stored"]);
});

/** A transaction that the test ends itself. */
async function transaction() {
  const client = new pg.Client({ ...connectionTo(database.address) });
  client.on("error", () => undefined);
  await client.connect();
  await client.query("SET idle_in_transaction_session_timeout = 0");
  await client.query("BEGIN");
  const query: Query = async (text, values = []) => (await client.query(text, [...values])).rows;
  return {
    query,
    async commit() {
      await client.query("COMMIT");
      await client.end();
    },
  };
}

/** Waits until somebody waits for a lock. */
async function untilBlocked(query: Query): Promise<void> {
  for (;;) {
    const waiting = await query("SELECT 1 FROM pg_locks WHERE NOT granted LIMIT 1");
    if (waiting.length > 0) return;
  }
}

async function makeBoard(people: People, id: BoardId): Promise<void> {
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  await people.makeBoard({ id, leader, session: hashOf(makeSecret()), at: 1, rows: [] });
}

function rowOf(key: DocumentKey, byte: number): NewRow {
  return { key, message: makeMessageId(), update: new Uint8Array([byte]), bindings: [] };
}

function bytesOf({ rows }: { readonly rows: readonly { readonly update: Uint8Array }[] }) {
  return rows.flatMap(({ update }) => [...update]);
}
