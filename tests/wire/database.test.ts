/**
 * A server over PostgreSQL: what it said to be saved is there after any crash, and while the
 * database is away it says nothing of the kind.
 */
import type { BoardId } from "@halflap/wire/api";
import { unsavedBytesMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import { Visitor } from "../support/browser-session.ts";
import { startPostgres, type TestPostgres } from "../support/postgres.ts";
import { RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let postgres: TestPostgres;
let variables: Record<string, string>;
let server: TestServer;
let leader: Visitor;
let board: BoardId;

beforeAll(async () => {
  postgres = await startPostgres();
  variables = { HALFLAP_DATABASE_URL: postgres.makeDatabase("boards") };
  server = await startTestServer({ variables });
  leader = new Visitor(server.address);
  ({ board } = await leader.makeBoard());
});

afterAll(async () => {
  await removeTestServer(server);
  await postgres.remove();
});

function write(client: RawClient, key: string, value = "x"): Uint8Array {
  const before = Y.encodeStateVector(client.doc);
  client.doc.getMap("trial").set(key, value);
  const update = Y.encodeStateAsUpdate(client.doc, before);
  client.sendUpdate(update);
  return update;
}

const keysOf = (client: RawClient) => Object.keys(client.doc.getMap("trial").toJSON()).sort();
const decidedOf = ({ heard }: RawClient) =>
  Math.max(0, ...heard.map((frame) => (frame.kind === "saved" ? frame.decided : 0)));
const savedAll = (client: RawClient, sent: number) =>
  client.until((frame) => frame.kind === "saved" && frame.decided >= sent);

test("what was saved is there after a kill of the server and a crash of the database", async () => {
  const writer = await RawClient.synced(leader, board, "board");
  const keys = Array.from({ length: 20 }, (_, i) => `a${String(i).padStart(2, "0")}`);
  for (const key of keys) write(writer, key);
  await savedAll(writer, keys.length);
  await Promise.all([server.kill(), postgres.crash()]);
  await postgres.start();
  const port = new URL(leader.address).port;
  server = await startTestServer({
    folder: server.folder,
    variables: { ...variables, HALFLAP_PORT: port },
  });
  const reader = await RawClient.synced(leader, board, "board");
  expect(keysOf(reader)).toEqual(keys);
  await reader.close();
});

test("while the database stands still edits wait unsaid, and reading goes on", async () => {
  const [writer, reader] = [
    await RawClient.synced(leader, board, "board"),
    await RawClient.synced(leader, board, "board"),
  ];
  write(writer, "b1");
  await savedAll(writer, 1);
  postgres.freeze();
  try {
    write(writer, "b2");
    // Far longer than a tick and than the pause between two words of what is saved.
    for (let i = 0; i < 150; i += 1) await Promise.all([writer.settled(), reader.settled()]);
    expect(keysOf(reader)).toContain("b1");
    expect(keysOf(reader)).toContain("b2"); // heard, and not said to be saved
    expect(decidedOf(writer)).toBe(1);
  } finally {
    postgres.thaw();
  }
  await savedAll(writer, 2);
  await reader.until(() => keysOf(reader).includes("b2"));
  expect(writer.heard.filter(({ kind }) => kind === "refused")).toEqual([]);
  await Promise.all([writer.close(), reader.close()]);
});

test("what waits is bounded: beyond it a socket is closed to come again", async () => {
  const [first, flood] = [
    await RawClient.synced(leader, board, "board"),
    await RawClient.synced(leader, board, "board"),
  ];
  const large = "z".repeat(200 * 1024);
  const times = Math.ceil(unsavedBytesMax / large.length) + 2;
  const updates: Uint8Array[] = [];
  postgres.freeze();
  try {
    for (let i = 0; i < times; i += 1) updates.push(write(flood, `c${i}`, large));
    expect((await flood.closed).code).toBe(closeCode.tryLater);
    expect(decidedOf(flood)).toBe(0);
    await first.settled();
  } finally {
    postgres.thaw();
  }
  const admitted = Math.floor(unsavedBytesMax / (updates[0]?.length ?? 0));
  await first.until(() => keysOf(first).includes(`c${admitted - 1}`));
  const again = await RawClient.synced(leader, board, "board");
  for (const update of updates) again.sendUpdate(update);
  await savedAll(again, updates.length);
  expect(again.heard.filter(({ kind }) => kind === "refused")).toEqual([]);
  const reader = await RawClient.synced(leader, board, "board");
  expect(keysOf(reader).filter((key) => key.startsWith("c"))).toHaveLength(times);
  await Promise.all([first.close(), again.close(), reader.close()]);
});

test("who comes while the database is away is no stranger, and told to come again", async () => {
  await postgres.crash();
  const door = RawClient.open(leader, board, "talk");
  expect((await door.closed).code).toBe(closeCode.tryLater);
  await postgres.start();
  await (await RawClient.synced(leader, board, "talk")).close();
});

test("a database that can't be used ends the start in words; no log has a password", async () => {
  const refused = async (change: (url: URL) => void) => {
    const url = new URL(variables.HALFLAP_DATABASE_URL ?? "");
    change(url);
    return startTestServer({ variables: { HALFLAP_DATABASE_URL: url.href } }).then(
      () => "it started",
      (fault: Error) => fault.message,
    );
  };
  const said = [
    await refused((url) => {
      url.port = "1";
    }),
    await refused((url) => {
      url.protocol = "mysql:";
    }),
  ];
  expect(said[0]).toMatch(
    /ended with 1: HALFLAP_DATABASE_URL: the database 127.0.0.1:1\/boards can't/,
  );
  expect(said[1]).toContain("HALFLAP_DATABASE_URL must be an address like postgres://");
  for (const words of [...said, server.logs()]) expect(words).not.toContain(postgres.password);
});
