/**
 * SIGKILL in the middle of work: whatever was said to be saved is there after the next start, kill
 * after kill.
 */
import type { BoardId } from "@halflap/wire/api";
import { expect, test } from "vitest";
import type * as Y from "yjs";
import { Visitor } from "../support/browser-session.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

/** In each round the server is killed as soon as it has decided so many of 200 edits. */
const killsAfter = [1, 7, 20, 45, 80, 120, 160, 190];
const editsEach = 200;

type Round = {
  readonly sent: readonly string[];
  /** Said to be saved before the kill. */
  readonly saved: readonly string[];
};

test("every edit said to be saved survives every kill", async () => {
  let server = await startTestServer();
  const leader = new Visitor(server.address);
  const { board } = await leader.makeBoard();
  const saved: string[] = [];
  let lost = 0;
  for (const [round, decided] of killsAfter.entries()) {
    const { sent, saved: now } = await workUntilKilled(server, leader, board, round, decided);
    saved.push(...now);
    server = await restarted(server, leader);
    const stored = new Set(keysOnDisk(server, board));
    expect(saved.filter((key) => !stored.has(key))).toEqual([]);
    lost += sent.filter((key) => !stored.has(key)).length;
    const reader = await RawClient.synced(leader, board, "board");
    expect(new Set(Object.keys(reader.doc.getMap("trial").toJSON()))).toEqual(stored);
    await reader.close();
  }
  // The kills fell in the middle: some edits that were sent and not said to be saved are gone.
  expect(saved.length).toBeGreaterThan(100);
  expect(lost).toBeGreaterThan(0);
  await removeTestServer(server);
});

async function workUntilKilled(
  server: TestServer,
  leader: Visitor,
  board: BoardId,
  round: number,
  decided: number,
): Promise<Round> {
  const client = await RawClient.synced(leader, board, "board");
  const sent: string[] = [];
  client.doc.on("update", (update: Uint8Array, origin: unknown) => {
    if (origin === "here") client.sendUpdate(update);
  });
  for (let i = 0; i < editsEach; i += 1) {
    const key = `${round}-${i}`;
    sent.push(key);
    client.doc.transact(() => client.doc.getMap("trial").set(key, i), "here");
    await new Promise((resolve) => setImmediate(resolve));
    if (decidedOf(client) >= decided) break;
  }
  await client.until((frame) => frame.kind === "saved" && frame.decided >= decided);
  await server.kill();
  return { sent, saved: sent.slice(0, decidedOf(client)) };
}

function decidedOf(client: RawClient): number {
  const counts = client.heard.map((frame) => (frame.kind === "saved" ? frame.decided : 0));
  return Math.max(0, ...counts);
}

async function restarted(server: TestServer, leader: Visitor): Promise<TestServer> {
  const { port } = new URL(leader.address);
  const variables = { HALFLAP_PORT: port };
  return startTestServer({ folder: server.folder, variables });
}

function keysOnDisk(server: TestServer, board: BoardId): readonly string[] {
  const doc: Y.Doc = documentsOnDisk(server, board).board;
  return Object.keys(doc.getMap("trial").toJSON());
}
