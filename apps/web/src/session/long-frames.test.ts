/**
 * More than a frame holds, made while there was no server: it arrives in pieces, or the page says
 * that it can't; it never tries the same again and again.
 *
 * @vitest-environment jsdom
 */
import { clientsPerUpdateMax, frameBytesMax, updateBytesMax } from "@halflap/wire/limits";
import * as decoding from "lib0/decoding";
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Awareness } from "y-protocols/awareness";
import * as Y from "yjs";
import { type FakeServer, makeFakeServer } from "../../../../tests/fakes/socket.ts";
import { type Line, openLine } from "./line.ts";

const room = "b1/board";
const long = "x".repeat(1_000);
let server: FakeServer;
let line: Line;
let refused: string[];
let sizes: number[];
/** Called with each frame that the line sends. */
let onFrame: (frame: Uint8Array) => void;

/** A line over sockets that end, as the server's do, at a frame that is too large. */
function open(doc = new Y.Doc()): Line {
  const Socket = server.Socket;
  class BoundedSocket extends Socket {
    override send(frame: Uint8Array<ArrayBuffer>): void {
      sizes.push(frame.length);
      if (frame.length > frameBytesMax) this.close();
      else super.send(frame);
      onFrame(frame);
    }
  }
  return createRoot(() =>
    openLine({
      ...{ address: "ws://test/sync", room, epoch: 1, doc, awareness: new Awareness(doc) },
      socket: BoundedSocket as typeof WebSocket,
      onRefused: (refusal) => refused.push(refusal),
      onClosed: (code) => refused.push(`closed ${code}`),
    }),
  );
}

const until = (check: () => void) => vi.waitFor(check, { interval: 5, timeout: 20_000 });
const connected = (now: boolean) => until(() => expect(line.state().connected).toBe(now));
const held = () => server.doc(room).getMap("m").size;
const edits = () => sizes.filter((size) => size > 10_000);

function write(count: number): void {
  for (let i = 0; i < count; i += 1) line.doc.getMap("m").set(`key ${i}`, `${long} ${i}`);
}

async function offline(): Promise<void> {
  server.reachable(false);
  await connected(false);
}

beforeEach(async () => {
  localStorage.clear();
  refused = [];
  sizes = [];
  onFrame = () => undefined;
  server = makeFakeServer();
  line = open();
  await connected(true);
});

afterEach(() => line.close());

test("what no frame holds arrives in pieces, and is saved with the last of them", async () => {
  await offline();
  write(3_000);
  line.doc.getMap("m").delete("key 7");
  let early = 0;
  onFrame = () => {
    if (line.state().changes === 0 && held() < 2_999) early += 1;
  };
  server.reachable(true);
  await until(() => expect(line.state().changes).toBe(0));
  expect(held()).toBe(2_999);
  expect(early).toBe(0);
  expect(edits().length).toBeGreaterThan(10);
  expect(Math.max(...sizes)).toBeLessThanOrEqual(frameBytesMax);
  expect(refused).toEqual([]);
});

test("a line that breaks between two pieces goes on with what the server lacks", async () => {
  await offline();
  write(3_000);
  let breaks = 2;
  onFrame = (frame) => {
    if (frame.length < 10_000 || breaks === 0 || held() === 0) return;
    breaks -= 1;
    queueMicrotask(() => {
      server.reachable(false);
      server.reachable(true);
    });
  };
  server.reachable(true);
  await until(() => expect(line.state().changes).toBe(0));
  expect([held(), breaks, refused]).toEqual([3_000, 0, []]);
});

test("what is edited while pieces wait arrives too", async () => {
  await offline();
  write(3_000);
  onFrame = () => {
    onFrame = () => undefined;
    line.doc.getMap("m").set("meanwhile", 1);
    line.doc.getMap("m").delete("key 2999");
  };
  server.reachable(true);
  await until(() => expect(line.state().changes).toBe(0));
  expect([held(), server.doc(room).getMap("m").get("meanwhile")]).toEqual([3_000, 1]);
});

test("one edit that is more than the server takes at once goes out in pieces", async () => {
  line.doc.transact(() => write(1_000));
  await until(() => expect(line.state().changes).toBe(0));
  expect(held()).toBe(1_000);
  expect(Math.max(...sizes)).toBeLessThanOrEqual(updateBytesMax + 16);
});

test("more page loads than an update may have authors come in several", async () => {
  await offline();
  for (let i = 0; i < clientsPerUpdateMax + 100; i += 1) {
    const visit = new Y.Doc();
    visit.getMap("m").set(`visit ${i}`, 1);
    Y.applyUpdate(line.doc, Y.encodeStateAsUpdate(visit));
  }
  let most = 0;
  onFrame = (frame) => {
    if (frame[0] !== 0 || frame[1] === 0) return;
    const update = decoding.readVarUint8Array(decoding.createDecoder(frame.subarray(2)));
    most = Math.max(most, Y.parseUpdateMeta(update).from.size);
  };
  server.reachable(true);
  await until(() => expect(held()).toBe(clientsPerUpdateMax + 100));
  expect(most).toBe(clientsPerUpdateMax);
});

test("a single thing that is too large is refused here, once, and never sent", async () => {
  await offline();
  line.doc.getMap("m").set("one", "x".repeat(frameBytesMax));
  server.reachable(true);
  await until(() => expect(refused).toContain("too-large"));
  expect(Math.max(...sizes)).toBeLessThan(1_000);
});
