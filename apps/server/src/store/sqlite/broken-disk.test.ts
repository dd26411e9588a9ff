/** A sync that fails: nothing more is said to be stored, since it would not outlast a power cut. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type DocumentKey, StoreBroken, StoreFull } from "../log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../secret.ts";
import type { Store } from "../store.ts";
import { openSqlite, writing } from "./open.ts";
import { openStore, storeFile } from "./store.ts";

const disk = vi.hoisted(() => ({ isFailing: false }));

vi.mock(import("node:fs"), async (original) => {
  const fs = await original();
  const fdatasync: typeof fs.fdatasync = Object.assign(
    (file: number, done: Parameters<typeof fs.fdatasync>[1]) => {
      if (disk.isFailing) process.nextTick(done, new Error("EIO: the disk fails"));
      else fs.fdatasync(file, done);
    },
    { __promisify__: fs.fdatasync.__promisify__ },
  );
  return { ...fs, fdatasync };
});

const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
const key: DocumentKey = { board: makeBoardId(), document: "board" };

let folder: string;
let store: Store;

beforeEach(async () => {
  disk.isFailing = false;
  folder = mkdtempSync(join(tmpdir(), "halflap-broken-"));
  store = openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => 1);
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: key.board, leader, session, at: 1, rows: [] });
});

afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const writeAheadLog = () => readFileSync(join(folder, `${storeFile}-wal`));
const append = (content: number) =>
  store.log.append([
    { key, message: makeMessageId(), update: new Uint8Array([content]), bindings: [] },
  ]);

/** The rows that a start finds when the disk has not what was written to the log between. */
async function rowsAfterPowerCut(lostFrom: number, lostTo: number): Promise<number[]> {
  const after = join(folder, "after");
  mkdirSync(after);
  copyFileSync(join(folder, storeFile), join(after, storeFile));
  writeFileSync(join(after, `${storeFile}-wal`), writeAheadLog().fill(0, lostFrom, lostTo));
  const found = openStore({ path: join(after, storeFile), pagesMax: undefined }, () => 1);
  const { rows } = await found.log.load(key);
  await found.close();
  return rows.flatMap(({ update }) => [...update]);
}

test("what is said to be stored after a failed sync is there after a power cut", async () => {
  const said: number[] = [];
  const faults: unknown[] = [];
  const tell = (content: number) =>
    append(content).then(
      () => said.push(content),
      (fault: unknown) => faults.push(fault),
    );
  await tell(1);
  const before = writeAheadLog().length;
  disk.isFailing = true;
  await tell(2);
  const after = writeAheadLog().length;
  disk.isFailing = false; // a kernel tells of a write that it gave up once
  await tell(3);
  expect(await rowsAfterPowerCut(before, after)).toEqual(said);
  expect(said).toEqual([1]);
  expect(faults).toEqual([expect.any(StoreBroken), expect.any(StoreFull)]);
});

test("a store whose disk failed keeps nothing else either, and is read on", async () => {
  await append(1);
  disk.isFailing = true;
  await expect(append(2)).rejects.toThrow(StoreBroken);
  disk.isFailing = false;
  await expect(store.people.rename(key.board, leader.id, "Bea")).rejects.toThrow(StoreFull);
  expect((await store.people.standing(key.board))?.members).toEqual([leader]);
});

test("a sync of SQLite's own that fails ends all writing too, a failed write does not", () => {
  const db = openSqlite({ path: join(folder, "other.sqlite"), pagesMax: undefined });
  const failing = (code: string) => () => {
    throw new Sqlite.SqliteError("disk I/O error", code);
  };
  const make = () => db.prepare("INSERT INTO boards (id, made_at) VALUES ('b', 1)").run();
  expect(() => writing(db, failing("SQLITE_IOERR_WRITE"))).toThrow("full");
  expect(() => writing(db, failing("SQLITE_IOERR_FSYNC"))).toThrow(StoreBroken);
  expect(() => writing(db, make)).toThrow(StoreBroken);
  expect(db.prepare("SELECT id FROM boards").all()).toEqual([]);
  db.close();
});

test("closing it copies nothing out of a log that may have a hole", async () => {
  disk.isFailing = true;
  await expect(append(1)).rejects.toThrow(StoreBroken);
  const file = readFileSync(join(folder, storeFile));
  const log = writeAheadLog();
  await store.close();
  expect(readFileSync(join(folder, storeFile))).toEqual(file);
  expect(writeAheadLog()).toEqual(log);
});
