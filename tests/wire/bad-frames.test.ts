/** Bad frames: the process lives, the sender is told or closed, and nobody else notices. */
import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { WebSocket } from "ws";
import * as Y from "yjs";
import { type Band, makeBand } from "../support/band.ts";
import { documentsOnDisk, rowsOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
let band: Band;

beforeAll(async () => {
  server = await startTestServer();
  band = await makeBand(server.address);
});

afterAll(() => removeTestServer(server));

const open = () => RawClient.synced(band.player.visitor, band.board, "board");

/** The board still takes and passes on an honest edit. */
async function expectAlive(): Promise<void> {
  const writer = await RawClient.synced(band.leader.visitor, band.board, "board");
  const reader = await RawClient.synced(band.listener.visitor, band.board, "board");
  const doc = new Y.Doc();
  doc.getMap("trial").set(`alive-${doc.clientID}`, true);
  writer.sendUpdate(Y.encodeStateAsUpdate(doc));
  await reader.until((frame) => frame.kind === "update");
  await Promise.all([writer.close(), reader.close()]);
  expect(server.isAlive()).toBe(true);
}

test.each([
  ["nothing", []],
  ["an unknown message", [42]],
  ["our own saved message", [100, 1, 0, 5]],
  ["our own refused message", [101, 1, 65]],
  ["an auth message", [2, 0, 1, 65]],
  ["an unknown sync message", [0, 9, 0]],
  ["step 1 cut short", [0, 0, 200, 1]],
  ["step 1 with a state vector that ends early", [0, 0, 1, 9]],
  ["an update longer than its frame", [0, 2, 255, 255, 255, 255, 15]],
  ["a number without an end", [255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255]],
  ["something after an update", [0, 2, 2, 0, 0, 7]],
])("%s is told to be malformed and changes nothing", async (_what, bytes) => {
  const client = await open();
  const rows = rowsOnDisk(server);
  client.sendBytes(new Uint8Array(bytes));
  expect(await client.until(({ kind }) => kind === "refused")).toMatchObject({ why: "malformed" });
  await client.settled();
  expect(rowsOnDisk(server)).toBe(rows);
  await client.close();
});

test("random and mutated frames end neither the process nor anybody else's work", async () => {
  const doc = new Y.Doc();
  doc.getMap("trial").set("seed", "x-x-3-2-4-x");
  const good = [0, 2, ...lengthOf(Y.encodeStateAsUpdate(doc))];
  const mutated = fc
    .tuple(fc.nat(good.length - 1), fc.nat(255))
    .map(([at, byte]) => good.map((each, i) => (i === at ? byte : each)));
  const frames = fc.sample(fc.oneof(fc.array(fc.nat(255), { maxLength: 40 }), mutated), {
    numRuns: 1_000,
    seed: 20_190_417,
  });
  for (let start = 0; start < frames.length; start += 250) {
    const client = await open();
    for (const frame of frames.slice(start, start + 250)) client.sendBytes(new Uint8Array(frame));
    await client.settled();
    await client.close();
  }
  await expectAlive();
  const { board } = documentsOnDisk(server, band.board);
  expect(board.store.pendingStructs).toBeNull();
  expect(board.store.pendingDs).toBeNull();
});

test("a frame above the limit closes its socket only", async () => {
  const client = await open();
  client.sendBytes(new Uint8Array(1024 * 1024 + 1));
  expect((await client.closed).code).toBe(1009);
  await expectAlive();
});

test("an update above the limit is refused, and so is a text frame", async () => {
  const client = await open();
  const doc = new Y.Doc();
  doc.getMap("trial").set("big", "x".repeat(300 * 1024));
  client.sendUpdate(Y.encodeStateAsUpdate(doc));
  await client.until((frame) => frame.kind === "refused" && frame.why === "too-large");
  client.socket.send("words");
  await client.until((frame) => frame.kind === "refused" && frame.why === "malformed");
  await client.close();
});

test("a socket that floods is told and closed, and may come again", async () => {
  const client = await open();
  for (let i = 0; i < 400; i += 1) client.sendBytes(new Uint8Array([3]));
  const { code } = await client.closed;
  expect(code).toBe(4529);
  expect(client.heard).toContainEqual({ kind: "refused", why: "too-fast" });
  await expectAlive();
});

test("a broken WebSocket frame ends its socket and not the process", async () => {
  const client = await open();
  const raw: unknown = Reflect.get(client.socket, "_socket");
  if (raw instanceof Object && "write" in raw && typeof raw.write === "function") {
    raw.write(Buffer.from([0xff, 0xff, 0xff, 0xff]));
  }
  expect((await client.closed).code).not.toBe(1000);
  expect(client.socket.readyState).toBe(WebSocket.CLOSED);
  await expectAlive();
});

function lengthOf(bytes: Uint8Array): readonly number[] {
  return bytes.length < 128
    ? [bytes.length, ...bytes]
    : [128 | (bytes.length % 128), bytes.length >> 7, ...bytes];
}
