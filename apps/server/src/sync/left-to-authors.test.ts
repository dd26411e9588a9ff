/**
 * W7 and W14, what a page shows of others that the disk lacks: how long it may, what becomes of its
 * own deletions beside that, and what it heard from another node too early.
 */
import { memberId } from "@halflap/board/talk";
import { beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import { PageAtRoom } from "../../../../tests/fakes/page-at-room.ts";
import { type DocumentKey, rowId, StoreFull, type UpdateLog } from "../store/log-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { step2Frame, updateFrame } from "./frames.ts";
import { authorsMs, awaitingMs } from "./intake.ts";
import { LateBytes } from "./late-updates.ts";
import { Room } from "./room.ts";
import { SaveLoop } from "./save-loop.ts";

const ada = memberId("ada");
const ben = memberId("ben");
const key: DocumentKey = { board: makeBoardId(), document: "board" };

let time: number;
let isFull: boolean;
let hasRoom: boolean;
let saveLoop: SaveLoop;
let lateBytes: LateBytes;
/** Ada's page at some other time or place, with each of its edits. */
let author: Y.Doc;
let edits: Uint8Array[];

beforeEach(() => {
  [time, isFull, hasRoom] = [1_000, false, true];
  lateBytes = new LateBytes();
  let rows = 1;
  const append: UpdateLog["append"] = async (batch) => {
    if (isFull) throw new StoreFull("full");
    return batch.map(() => {
      rows += 1;
      return { kind: "stored", row: rowId(rows) };
    });
  };
  const log = { append } as unknown as UpdateLog;
  saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault: () => undefined });
  author = new Y.Doc();
  author.clientID = 1;
  edits = [];
  author.on("update", (update: Uint8Array) => edits.push(update));
  author.getMap("m").set("first", 1);
});

/** A room with Ada's first edit on disk; ids 1 and 3 are hers and 2 is Ben's, as the disk knows. */
function open(isShared = false): Room {
  const rows = [{ id: rowId(1), update: edits[0] ?? new Uint8Array() }];
  const bindings = [
    { client: 1, member: ada },
    { client: 2, member: ben },
    { client: 3, member: ada },
  ];
  const members = [ada, ben].map((id) => ({ id, name: id, role: "player" as const }));
  return new Room(
    key,
    { rows, bindings, head: rowId(1) },
    {
      saveLoop,
      memberNow: (id) => members.find((member) => member.id === id),
      ownersNow: () => ({ upper: undefined, lower: undefined }),
      hasBoardRoomFor: () => hasRoom,
      lateBytes,
      onBehind: isShared ? () => undefined : undefined,
    },
  );
}

/** Ben's page, who may write, with all of Ada's edits: the last ones were passed on and lost. */
function hearer(room: Room): PageAtRoom {
  const page = new PageAtRoom(room, ben, 2, () => time);
  page.take(Y.encodeStateAsUpdate(author));
  return page;
}

function pass(ms: number): void {
  time += ms;
}

/** The room has read all that the log has. */
function look(room: Room): void {
  room.judgeLate(room.lateMark);
}

const hasDeletedFirst = (room: Room) => room.held.known.hasDeleted(1, { start: 0, end: 1 });

test("a deletion beside others' lost work counts for nothing yet, and comes again", async () => {
  const room = open();
  author.getMap("m").set("lost", 1);
  const page = hearer(room);
  page.doc.transact(() => page.map.delete("first"), "network"); // while it had no line
  page.answer();
  expect(page.hears()).toEqual(["others-first", "saved 1"]);
  expect(hasDeletedFirst(room)).toBe(false);
  const again = new PageAtRoom(room, ada, 3, () => time);
  again.take(Y.encodeStateAsUpdate(author));
  room.receive(again.seat, updateFrame(edits[1] ?? new Uint8Array()));
  await saveLoop.flush();
  pass(1_000);
  page.hears();
  page.answer();
  await saveLoop.flush();
  expect(page.hears()).toEqual(["saved 2"]);
  expect(hasDeletedFirst(room)).toBe(true);
});

test.each([
  ["arrived", false, ["saved 1"]],
  ["failed", true, ["store-full", "saved 1"]],
])("an answer left to others is decided when the deletion in it has %s", async (_, full, told) => {
  const room = open();
  const old = hearer(room);
  old.map.delete("first");
  author.getMap("m").set("lost", 1);
  isFull = full;
  const page = hearer(room);
  page.take(Y.encodeStateAsUpdate(old.doc));
  page.answer();
  expect(page.hears()).toEqual([]);
  await saveLoop.flush();
  expect(page.hears().filter((each) => each !== "edit")).toEqual(told);
});

test("its own part beside others' lost work is refused too where there is no room", async () => {
  const room = open();
  author.getMap("m").set("lost", 1);
  const page = hearer(room);
  page.doc.transact(() => page.map.set("own", 1), "network"); // while it had no line
  hasRoom = false;
  page.answer();
  expect(page.hears()).toContain("board-full");
  hasRoom = true;
  page.answer();
  await saveLoop.flush();
  expect(page.hears()).not.toContain("board-full");
  expect(room.held.known.clocks.get(2)).toBe(1);
});

test("two who each lost what the other heard both bring their own, and lose no turn", async () => {
  const room = open();
  const pages = [
    new PageAtRoom(room, ada, 30, () => time),
    new PageAtRoom(room, ben, 20, () => time),
  ];
  const [mine, theirs] = pages;
  const turns = ["ada", "ben", "ada again"];
  const lost = [3, 2].map((clientID) => {
    const doc = new Y.Doc();
    doc.clientID = clientID;
    Y.applyUpdate(doc, edits[0] ?? new Uint8Array());
    return doc;
  });
  for (const [i, value] of turns.entries()) {
    lost[i % 2]?.getMap("m").set("by turns", value);
    for (const doc of lost) for (const one of lost) Y.applyUpdate(doc, Y.encodeStateAsUpdate(one));
  }
  for (const page of pages) page.take(Y.encodeStateAsUpdate(lost[0] ?? new Y.Doc()));
  for (const page of [mine, theirs, mine]) {
    page?.answer();
    await saveLoop.flush();
  }
  const stored = new Y.Doc();
  Y.applyUpdate(stored, room.held.bytes.merged());
  expect(stored.getMap("m").get("by turns")).toBe("ada again");
  expect(room.held.known.clocks).toEqual(
    new Map([
      [1, 1],
      [2, 1],
      [3, 2],
    ]),
  );
});

test("no edit of theirs gives hearers another minute, only an answer without others' work", () => {
  const room = open();
  author.getMap("m").set("lost", 1);
  const page = hearer(room);
  const known = edits[0] ?? new Uint8Array();
  page.answer();
  pass(authorsMs - 1);
  room.receive(page.seat, updateFrame(known));
  pass(1);
  page.answer();
  expect(page.hears()).toContain("foreign-client");
  page.answer();
  pass(authorsMs - 1);
  room.receive(page.seat, step2Frame(known));
  pass(1);
  page.answer();
  expect(page.hears()).not.toContain("foreign-client");
});

test("the minute begins when the disk takes what comes: before, no author can come", async () => {
  const room = open();
  author.getMap("m").set("lost", 1);
  const page = hearer(room);
  isFull = true;
  page.map.set("own", 1);
  await saveLoop.flush();
  page.answer();
  pass(2 * authorsMs);
  page.answer();
  isFull = false;
  const writer = new PageAtRoom(room, ben, 2, () => time);
  writer.map.set("other", 1);
  await saveLoop.flush();
  page.answer();
  pass(authorsMs - 1);
  page.answer();
  expect(page.hears()).not.toContain("foreign-client");
  pass(1);
  page.answer();
  expect(page.hears()).toContain("foreign-client");
});

test("what another node passed on and lost is waited for once, and refused after a minute", () => {
  const room = open(true);
  const page = new PageAtRoom(room, ben, 2, () => time);
  page.take(edits[0] ?? new Uint8Array());
  author.getMap("m").set("lost", 1);
  room.hear(updateFrame(edits[1] ?? new Uint8Array()));
  expect(page.hears()).toEqual(["edit"]);
  page.answer();
  look(room);
  expect(page.hears()).toEqual([]);
  pass(awaitingMs);
  look(room);
  expect(page.hears()).toEqual(["saved 1"]);
  page.answer();
  look(room);
  expect(lateBytes.held).toBe(0);
  pass(authorsMs);
  page.answer();
  look(room);
  expect(page.hears()).toContain("foreign-client");
});

test("what waits goes with the page that sent it", () => {
  const room = open(true);
  author.getMap("m").set("lost", 1);
  const page = hearer(room);
  page.answer();
  expect(lateBytes.held).toBeGreaterThan(0);
  room.leave(page.seat);
  expect(lateBytes.held).toBe(0);
});

/** Two edits of Ada's, of which Ben's page hears the second one alone, over another node. */
const crossings = {
  "a hole": () => {
    for (const name of ["missed", "early"]) author.getMap("m").set(name, 1);
    return { saved: "saved 3" };
  },
  "a deletion of what is not here": () => {
    author.getMap("m").set("missed", 1);
    author.getMap("m").delete("missed");
    return { saved: "saved 2" };
  },
};

/** A page of Ben's that heard the second one of them, and answers. */
function hearsEarly(room: Room): PageAtRoom {
  const page = new PageAtRoom(room, ben, 2, () => time);
  for (const edit of [edits[0], edits[2]]) page.take(edit ?? new Uint8Array());
  page.answer();
  return page;
}

test.each(Object.entries(crossings))("an answer with %s is asked for again", (_, cross) => {
  const { saved } = cross();
  const room = open(true);
  const page = hearsEarly(room);
  expect(page.hears()).toEqual([]);
  look(room);
  expect(page.hears()).toEqual(["others-first", "saved 1"]);
  const rows = edits.slice(1).map((update, i) => ({ id: rowId(2 + i), update }));
  room.follow({ kind: "rows", rows, bindings: [] });
  pass(1_000);
  room.retry();
  page.answer();
  look(room);
  expect(page.hears()).toEqual(["edit", "edit", "asked", saved]);
});

test("a node by itself leaves such an answer too, for what it passed on may be lost", () => {
  crossings["a hole"]();
  expect(hearsEarly(open()).hears()).toEqual(["others-first", "saved 1"]);
});

test("an edit with a hole is no page's", () => {
  crossings["a hole"]();
  const shared = open(true);
  const page = hearsEarly(shared);
  shared.receive(page.seat, updateFrame(Y.encodeStateAsUpdate(page.doc)));
  expect(page.hears()).toEqual(["malformed", "saved 1"]);
});
