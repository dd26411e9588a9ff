/** Backups taken while the server writes, put back, and what pages that knew more do then. */
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openStoreReadOnly } from "@halflap/server/store";
import { apiPath, type BoardAnswer, type BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { expectOk, Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { runHalflap } from "../support/run-halflap.ts";
import { decidedOf, saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

let server: TestServer;
let leader: Visitor;
let board: BoardId;
let folder: string;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-backup-"));
  server = await startTestServer();
  leader = new Visitor(server.address);
  board = (await leader.makeBoard()).board;
});

afterEach(async () => {
  await removeTestServer(server);
  rmSync(folder, { recursive: true, force: true });
});

const clients = 10;
/** A document's path for a page that names an epoch; what follows is a parameter without use. */
const withEpoch = (epoch: number) => `board?epoch=${epoch}&after=`;
/** As many as a socket may send for as long as it likes, for each time that it is answered. */
const editsAtOnce = 6;

/** Ten sockets that each send as fast as they may and are answered: about 500 edits a second. */
function startLoad(writers: readonly RawClient[]) {
  const saved = new Set<string>();
  let isOver = false;
  const work = async (client: RawClient, number: number) => {
    for (let sent = 0; !isOver; sent += editsAtOnce) {
      const keys = Array.from({ length: editsAtOnce }, (_, i) => `${number}-${sent + i}`);
      for (const key of keys) say(client, key, 1);
      const all = sent + editsAtOnce;
      await client.until((frame) => frame.kind === "saved" && frame.decided === all);
      for (const key of keys) saved.add(key);
    }
  };
  const ended = Promise.all(writers.map(work));
  return {
    savedNow: () => [...saved],
    reached: async (count: number) => {
      while (saved.size < count) await new Promise((resolve) => setImmediate(resolve));
    },
    async stop() {
      isOver = true;
      await ended;
    },
  };
}

function keysIn(store: string): ReadonlySet<string> {
  const opened = openStoreReadOnly(store);
  try {
    const documents = opened.documents(board);
    return new Set(documents === undefined ? [] : Object.keys(saidIn(documents.board)));
  } finally {
    opened.close();
  }
}

test("whatever was saved before a backup began under load is there after restoring", async () => {
  const open = () => RawClient.synced(leader, board, "board");
  const writers = await Promise.all(Array.from({ length: clients }, open));
  const load = startLoad(writers);
  await load.reached(300);
  const before = load.savedNow();
  const file = join(folder, "backup.sqlite");
  const made = await runHalflap(["backup", file, "--store", server.folder]);
  expect(made).toMatchObject({ exit: 0, err: "" });
  const after = load.savedNow();
  await load.reached(after.length + editsAtOnce); // something comes after it in any case
  await load.stop();
  await Promise.all(writers.map((client) => client.close()));
  expect(after.length).toBeGreaterThan(before.length); // it was written to meanwhile

  const place = join(folder, "restored");
  const put = await runHalflap(["restore", file, "--store", place]);
  expect(put).toMatchObject({ exit: 0, err: "" });
  const restored = keysIn(place);
  expect(before.filter((key) => !restored.has(key))).toEqual([]);
  const verified = await runHalflap(["verify", "--store", place, "--json"]);
  expect(verified.exit).toBe(0);
  expect(JSON.parse(verified.out)).toMatchObject({ boards: 1, documents: 4, faults: [] });
  // The check can fail: the backup has not what came after it.
  expect([...keysIn(server.folder)].filter((key) => !restored.has(key)).length).toBeGreaterThan(0);
});

test("a page that knows more than the backup is turned away, and the board goes on", async () => {
  const file = join(folder, "backup.sqlite");
  const writer = await RawClient.synced(leader, board, "board");
  say(writer, "early", 1);
  await writer.until((frame) => frame.kind === "saved" && frame.decided === 1);
  await runHalflap(["backup", file, "--store", server.file]);
  say(writer, "late", 1);
  await writer.until((frame) => frame.kind === "saved" && frame.decided === 2);
  expect(decidedOf(writer)).toBe(2);
  await writer.close();

  const used = await runHalflap(["restore", file, "--store", server.folder]);
  expect(used).toMatchObject({
    exit: 2,
    err: `${server.file} is in use; stop the server first.\n`,
  });
  expect(keysIn(server.folder)).toContain("late");
  const epochBefore = await epoch();
  await server.stop();
  const put = await runHalflap(["restore", file, "--store", server.folder, "--json"]);
  expect(put.exit).toBe(0);
  const { before } = JSON.parse(put.out) as { before: string };
  expect(keysIn(before)).toContain("late");

  const variables = { HALFLAP_PORT: new URL(server.address).port };
  server = await startTestServer({ folder: server.folder, variables });
  const epochNow = await epoch();
  expect(epochNow).toBeGreaterThan(epochBefore);
  const stale = RawClient.open(leader, board, withEpoch(epochBefore));
  expect((await stale.closed).code).toBe(closeCode.otherEpoch);
  expect(stale.count("step-1")).toBe(0);
  const fresh = await RawClient.synced(leader, board, withEpoch(epochNow));
  expect(Object.keys(saidIn(fresh.doc))).toEqual(["early"]);
  await fresh.close();

  await server.stop();
  expect((await runHalflap(["restore", file, "--store", server.folder])).exit).toBe(0);
  server = await startTestServer({ folder: server.folder, variables });
  expect(await epoch()).toBeGreaterThan(epochNow); // the same backup twice is two histories
});

async function epoch(): Promise<number> {
  const answer = await leader.ask("GET", apiPath.board(board));
  return (expectOk(answer) as BoardAnswer).epoch;
}

test("a backup replaces nothing, and what is none is not restored", async () => {
  const file = join(folder, "backup.sqlite");
  writeFileSync(file, "minutes of a meeting\n");
  const kept = await runHalflap(["backup", file, "--store", server.folder]);
  expect(kept.err).toBe(`${file} is there already; no backup replaces another.\n`);
  await server.stop();
  const before = readdirSync(server.folder).sort();
  const wrong = await runHalflap(["restore", file, "--store", server.folder]);
  expect(wrong.exit).toBe(2);
  expect(wrong.err).toContain("can't be read as a store");
  const missing = await runHalflap(["restore", `${file}x`, "--store", server.folder]);
  expect(missing.err).toBe(`${file}x is not there.\n`);
  expect(readdirSync(server.folder).sort()).toEqual(before);
  expect(existsSync(server.file)).toBe(true);
});

test("verify names what can't be read, and ends with 1", async () => {
  await server.stop();
  const db = new Sqlite(server.file);
  const lane = "SELECT id FROM documents WHERE board = ? AND name = 'lane-upper'";
  const { id } = db.prepare<[string], { id: number }>(lane).get(board) ?? { id: 0 };
  db.prepare("INSERT INTO updates (document, at, data) VALUES (?, 1, x'0102030405')").run(id);
  const take = "INSERT INTO takes (board, id, member, at, head, type, size) ";
  db.prepare(`${take} VALUES (?, 't1', 'm', 1, '{', 'audio/wav', 3)`).run(board);
  db.prepare("INSERT INTO take_parts (take, start, data) VALUES ('t1', 0, x'00')").run();
  db.close();
  const found = await runHalflap(["verify", "--store", server.folder]);
  expect(found.exit).toBe(1);
  expect(found.out).toContain(`${board} lane-upper: row `);
  expect(found.out).toContain(`${board} take t1: its sound has 1 bytes instead of 3`);
  expect(found.out).toContain("1 board, 4 documents, ");
});
