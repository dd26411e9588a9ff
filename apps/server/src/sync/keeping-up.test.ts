/** A reader that is slow is sent no more of others until it has read; then all of it at once. */
import { memberId } from "@halflap/board/talk";
import { behindBytesMax, bufferedBytesMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { type DocumentKey, rowId } from "../store/log-port.ts";
import { makeBoardId, makeMessageId } from "../store/secret.ts";
import { updateFrame } from "./frames.ts";
import { HeldDocument, ownParts } from "./held-document.ts";
import { answerStep1, catchUp, passToAll } from "./keeping-up.ts";
import { Presences } from "./presences.ts";
import { Searches } from "./searches.ts";
import { Seat } from "./seat.ts";

/** A seat whose other end reads when the test says so, into a document of its own. */
function slowReader() {
  const doc = new Y.Doc();
  let unread: Uint8Array[] = [];
  let code: number | undefined;
  const line = {
    send: (frame: Uint8Array) => void unread.push(frame),
    close: (why: number) => {
      code = why;
    },
    buffered: () => unread.reduce((sum, { length }) => sum + length, 0),
  };
  const clock = () => 0;
  const seat = new Seat({ member: memberId("cleo"), line, wantsSaved: false, now: clock });
  const read = () => {
    for (const frame of unread) {
      const decoder = decoding.createDecoder(frame);
      if (decoding.readVarUint(decoder) !== 0) continue;
      decoding.readVarUint(decoder);
      Y.applyUpdate(doc, decoding.readVarUint8Array(decoder));
    }
    unread = [];
  };
  return { seat, doc, read, unread: () => line.buffered(), closedWith: () => code };
}

/** A room's document with somebody who writes without a pause. */
function busyRoom() {
  const held = new HeldDocument({ rows: [], bindings: [], head: rowId(0) });
  const doc = new Y.Doc();
  const place: DocumentKey = { board: makeBoardId(), document: "board" };
  const write = (key: string, size: number, seats: readonly Seat[]) => {
    const before = Y.encodeStateVector(doc);
    doc.getMap("m").set(key, "x".repeat(size));
    const update = Y.encodeStateAsUpdate(doc, before);
    const row = { key: place, message: makeMessageId(), update, bindings: [] };
    const parts = ownParts(update);
    held.begin({ update, parts, bindings: [] }, false);
    held.arrived(row, { parts, isHeard: false }, rowId(1));
    passToAll(seats, undefined, updateFrame(update), held);
  };
  const told = { held, presences: new Presences(), searches: new Searches() };
  return { doc, write, told };
}

const chunk = 64 * 1024;

test("what is kept for a slow reader is bounded, and it misses nothing in the end", () => {
  const { doc, write, told } = busyRoom();
  const [slow, quick] = [slowReader(), slowReader()];
  for (let i = 0; i < 200; i += 1) {
    write(`key-${i % 20}`, chunk, [slow.seat, quick.seat]);
    quick.read();
    expect(slow.unread()).toBeLessThan(behindBytesMax + 2 * chunk);
  }
  catchUp(slow.seat, told);
  expect(slow.seat.behindFrom).toBeDefined(); // not before it has read
  slow.read();
  expect(slow.doc.getMap("m").size).toBeLessThan(21);
  catchUp(slow.seat, told);
  slow.read();
  for (const { doc: read } of [slow, quick]) {
    expect(read.getMap("m").toJSON()).toEqual(doc.getMap("m").toJSON());
    expect(read.store.pendingStructs).toBeNull();
  }
  expect(slow.closedWith()).toBeUndefined();
});

test("a first sync beyond every bound comes whole, and what follows it too", () => {
  const { doc, write, told } = busyRoom();
  for (let i = 0; i < 100; i += 1) write(`key-${i}`, chunk, []);
  const slow = slowReader();
  answerStep1(slow.seat, new Map(), told);
  expect(slow.unread()).toBeGreaterThan(bufferedBytesMax);
  for (let i = 0; i < 5; i += 1) {
    write(`late-${i}`, 10, [slow.seat]);
    slow.seat.send(new Uint8Array([1, 1, 0]));
  }
  answerStep1(slow.seat, new Map(), told); // asked again: not a second one in the line
  expect(slow.unread()).toBeLessThan(7 * 2 ** 20);
  slow.read();
  catchUp(slow.seat, told);
  slow.read();
  expect(slow.doc.getMap("m").toJSON()).toEqual(doc.getMap("m").toJSON());
  expect(slow.closedWith()).toBeUndefined();
});

test("whoever asks and asks and reads nothing is sent away to come again", () => {
  const slow = slowReader();
  for (let i = 0; i < 300; i += 1) slow.seat.send(new Uint8Array(chunk));
  expect(slow.closedWith()).toBe(closeCode.tryLater);
  expect(slow.unread()).toBeLessThan(bufferedBytesMax + 3 * chunk);
});
