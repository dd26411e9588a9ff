/** The SQLite file: older ones are brought up to date, newer ones left alone, full ones told. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TakeCard } from "@halflap/wire/api";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type DocumentKey, rowId, StoreFull } from "../log-port.ts";
import {
  hashOf,
  makeBoardId,
  makeMemberId,
  makeMessageId,
  makeSecret,
  makeTakeId,
} from "../secret.ts";
import { bringUpToDate, schemaVersion } from "./schema.ts";
import { openStore } from "./store.ts";

let folder: string;
let path: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-schema-"));
  path = join(folder, "boards.sqlite");
});

afterEach(() => rmSync(folder, { recursive: true }));

const older = Array.from({ length: schemaVersion - 1 }, (_, i) => i + 1);

test.each(older)(
  "a file of schema %i keeps what it has, and work goes on in it",
  async (version) => {
    const board = makeBoardId();
    const member = makeMemberId();
    const session = hashOf(makeSecret());
    const db = new Sqlite(path);
    bringUpToDate(db, version);
    expect(db.pragma("user_version", { simple: true })).toBe(version);
    db.prepare("INSERT INTO boards (id, made_at) VALUES (?, 1)").run(board);
    db.prepare("INSERT INTO documents (id, board, name) VALUES (3, ?, 'board')").run(board);
    db.prepare("INSERT INTO updates (document, at, data) VALUES (3, 1, x'01')").run();
    db.prepare("INSERT INTO updates (document, at, data) VALUES (3, 2, x'02')").run();
    db.prepare("INSERT INTO client_ids (document, client, member) VALUES (3, 5, ?)").run(member);
    db.prepare("INSERT INTO members VALUES (?, ?, 'Ada', 'leader')").run(board, member);
    db.prepare("INSERT INTO sessions VALUES (?, ?, ?)").run(session, board, member);
    db.close();

    const store = openStore({ path, pagesMax: undefined }, () => 3);
    const key: DocumentKey = { board, document: "board" };
    const stored = await store.log.load(key);
    expect(stored.rows.flatMap(({ update }) => [...update])).toEqual([1, 2]);
    expect(stored.bindings).toEqual([{ client: 5, member }]);
    expect(await store.people.memberOf(session, board)).toMatchObject({ id: member });
    expect(await store.people.peopleVersion([board])).toEqual([1]);
    expect((await store.people.standing(board))?.takes).toEqual([]);
    const row = { key, message: makeMessageId(), update: new Uint8Array([3]), bindings: [] };
    expect(await store.log.append([row])).toEqual([{ kind: "stored", row: 3 }]);
    expect(await store.log.compact(key, rowId(3), new Uint8Array([9]))).toBe(true);
    expect((await store.log.load(key)).rows.map(({ id }) => id)).toEqual([3]);
    await store.close();
  },
);

test("a file of a newer server is left alone, with a sentence", () => {
  const db = new Sqlite(path);
  bringUpToDate(db);
  db.pragma(`user_version = ${schemaVersion + 1}`);
  expect(() => bringUpToDate(db)).toThrow(/made by a newer server/);
  expect(db.pragma("user_version", { simple: true })).toBe(schemaVersion + 1);
  db.close();
});

test("two that open the same old file take its steps once", () => {
  const [one, two] = [new Sqlite(path), new Sqlite(path)];
  bringUpToDate(one, 1);
  bringUpToDate(one);
  bringUpToDate(two);
  expect(two.pragma("user_version", { simple: true })).toBe(schemaVersion);
  one.close();
  two.close();
});

test("without room on the disk nothing of a row or a take is stored", async () => {
  const store = openStore({ path, pagesMax: 64 }, () => 1);
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  const board = makeBoardId();
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  const key: DocumentKey = { board, document: "board" };
  const row = { key, message: makeMessageId(), update: new Uint8Array(400_000), bindings: [] };
  await expect(store.log.append([row])).rejects.toThrow(StoreFull);
  expect((await store.log.load(key)).rows).toEqual([]);
  const sound = new Uint8Array(400_000);
  const take = { board, card: cardOf(sound, leader.id), sound };
  await expect(store.takes.keep(take)).rejects.toThrow(StoreFull);
  expect(await store.takes.list(board)).toEqual([]);
  await store.close();
});

function cardOf(sound: Uint8Array, from: TakeCard["from"]): TakeCard {
  return {
    id: makeTakeId(),
    from,
    at: 1,
    name: "Riff",
    bars: [],
    offsetMs: 0,
    lengthMs: 4000,
    tempo: 104,
    type: "audio/webm",
    size: sound.length,
  };
}
