/** W9, who asks again and again what they lack of a large document: how often it is searched. */
import { memberId } from "@halflap/board/talk";
import { documentBytesMax, searchedBytesBurst, searchesBurst } from "@halflap/wire/limits";
import { beforeEach, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { PageAtRoom } from "../../../../tests/fakes/page-at-room.ts";
import { rowId } from "../store/log-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { step1Frame } from "./frames.ts";
import { Room } from "./room.ts";
import { SaveLoop } from "./save-loop.ts";
import { Searches } from "./searches.ts";

const searched = vi.hoisted(() => ({ count: 0, bytes: 0 }));
vi.mock("yjs", async (load) => {
  const yjs = await load<typeof import("yjs")>();
  const diffUpdate: typeof yjs.diffUpdate = (update, has) => {
    searched.count += 1;
    searched.bytes += update.length;
    return yjs.diffUpdate(update, has);
  };
  return { ...yjs, diffUpdate };
});

const ada = memberId("ada");
let time: number;
let searches: Searches;
let saveLoop: SaveLoop;

beforeEach(() => {
  time = 1_000;
  searches = new Searches();
  const append = async (rows: readonly unknown[]) =>
    rows.map(() => ({ kind: "stored", row: rowId(2) }));
  saveLoop = new SaveLoop({ log: { append } as never, now: () => 0, onFault: () => undefined });
});

/** Keys and values of a document, the last one by another author. */
function written(keys: number, length: number): Y.Doc {
  const doc = new Y.Doc();
  doc.clientID = 1;
  for (let i = 0; i < keys; i += 1) doc.getMap("m").set(`k${i}`, "x".repeat(length));
  doc.clientID = 2;
  doc.getMap("m").set("last", 1);
  return doc;
}

/** The room of a document of which somebody has asked what they lack, and lacked nothing. */
function open(doc: Y.Doc): Room {
  const row = { id: rowId(1), update: Y.encodeStateAsUpdate(doc) };
  const stored = { rows: [row], bindings: [], head: row.id };
  const room = new Room({ board: makeBoardId(), document: "board" }, stored, {
    saveLoop,
    searches,
    memberNow: (id) => ({ id, name: id, role: "player" }),
    ownersNow: () => ({ upper: undefined, lower: undefined }),
  });
  room.held.bytes.since(Y.decodeStateVector(room.held.durableVector()));
  Object.assign(searched, { count: 0, bytes: 0 });
  return room;
}

const page = (room: Room, client = 3) => new PageAtRoom(room, ada, client, () => time);
const ask = (room: Room, { seat }: PageAtRoom, has: ReadonlyMap<number, number>) =>
  room.receive(seat, step1Frame(Y.encodeStateVector(new Map(has))));
const answersTo = (asking: PageAtRoom) => asking.hears().filter((what) => what === "answer").length;
/** All but what the other author wrote: an answer of a few bytes. */
const lacksLast = new Map([[1, 1_000_000]]);

test("a large document is searched for a socket once a second beyond a burst", () => {
  const room = open(written(1_000, 300));
  const asking = page(room);
  for (let i = 0; i < 250; i += 1) ask(room, asking, lacksLast);
  expect(searched.count).toBe(searchesBurst);
  expect(answersTo(asking)).toBe(searchesBurst);
  for (let tick = 0; tick < 10; tick += 1) {
    time += 2_000;
    room.retry();
    ask(room, asking, lacksLast);
  }
  expect(searched.count).toBeLessThanOrEqual(searchesBurst + 20);
});

test("who is answered later has all that was said meanwhile too", async () => {
  const room = open(written(1_000, 300));
  const [asking, other] = [page(room, 3), page(room, 4)];
  asking.take(Y.encodeStateAsUpdate(written(1, 300)));
  const has = Y.decodeStateVector(Y.encodeStateVector(asking.doc));
  searches.take(searchedBytesBurst, time, true); // others have used all that there was
  ask(room, asking, has);
  other.map.set("meanwhile", 1);
  await saveLoop.flush();
  room.retry();
  expect(asking.map.size).toBe(2);
  time += 2_000;
  room.retry();
  expect([asking.map.size, asking.map.get("meanwhile")]).toEqual([1_002, 1]);
});

test("many sockets in many documents get no more searched together than one", () => {
  const doc = written(2_000, 500);
  const size = Y.encodeStateAsUpdate(doc).length;
  const rooms = Array.from({ length: 5 }, () => open(doc));
  const all = rooms.flatMap((room) => Array.from({ length: 20 }, (_, i) => [room, i] as const));
  const pages = all.map(([room, i]) => ({ room, asking: page(room, 10 + i) }));
  for (const { room, asking } of pages) ask(room, asking, lacksLast);
  expect(searched.bytes).toBeLessThanOrEqual(searchedBytesBurst / 2 + documentBytesMax);
  expect(searched.count).toBeLessThan(20);
  // Whoever waits has what is left, and comes before whoever asks now.
  for (const room of rooms) room.retry();
  expect(searched.bytes).toBeLessThanOrEqual(searchedBytesBurst + size);
  for (let tick = 0; tick < 15; tick += 1) {
    time += 2_000;
    for (const room of rooms) room.retry();
  }
  expect(pages.map(({ asking }) => answersTo(asking))).toEqual(pages.map(() => 1));
});

test("who lacks nothing, lacks all, or asks of a small document is answered at once", () => {
  const large = open(written(1_000, 300));
  const small = open(written(20, 60));
  searches.take(searchedBytesBurst, time, true); // others have used all that there was
  const nothing = Y.decodeStateVector(large.held.durableVector());
  for (const [room, has] of [
    [large, nothing],
    [large, new Map<number, number>()],
    [small, new Map([[1, 1]])],
  ] as const) {
    const asking = page(room);
    for (let i = 0; i < 20; i += 1) ask(room, asking, has);
    expect(answersTo(asking)).toBe(20);
  }
});
