/**
 * What is on its way to the disk when a page comes over another line: decided with it, and asked
 * for when it failed. Found by a random schedule (seed 1551).
 */
import { decodeRefused, refusedMessage, savedMessage } from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import { type DocumentKey, StoreFull, type UpdateLog } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "../store/secret.ts";
import { openStore } from "../store/sqlite/store.ts";
import type { Store } from "../store/store.ts";
import { step2Frame, updateFrame } from "./frames.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";
import { Seat } from "./seat.ts";

const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
let store: Store;
let key: DocumentKey;

beforeEach(async () => {
  store = openStore({ path: ":memory:", pagesMax: undefined }, () => 1);
  const board = makeBoardId();
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  key = { board, document: "board" };
});

afterEach(() => store.close());

/** Rooms over a disk that lets a commit through, or fails it, when told. */
function roomsBehindGate() {
  let open: (isFull: boolean) => void = () => undefined;
  let begun: () => void = () => undefined;
  const hasBegun = new Promise<void>((resolve) => {
    begun = resolve;
  });
  const gate = new Promise<boolean>((resolve) => {
    open = resolve;
  });
  const append: UpdateLog["append"] = async (rows) => {
    begun();
    if (await gate) throw new StoreFull("full");
    return store.log.append(rows);
  };
  const log = { ...store.log, append };
  const onFault = () => undefined;
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  return {
    rooms: new Rooms({ log, people: store.people, saveLoop, onFault }),
    open,
    hasBegun,
    saveLoop,
  };
}

function seatThatHears() {
  const heard: string[] = [];
  const send = (frame: Uint8Array) => {
    const decoder = decoding.createDecoder(frame);
    const kind = decoding.readVarUint(decoder);
    if (kind === refusedMessage) heard.push(decodeRefused(decoder));
    if (kind === savedMessage) heard.push("saved");
    if (kind === 0) heard.push(["ask", "answer", "edit"][decoding.readVarUint(decoder)] ?? "?");
  };
  const now = () => performance.now();
  const line = { send, close: () => undefined, buffered: () => 0 };
  return { heard, seat: new Seat({ member: leader.id, wantsSaved: true, now, line }) };
}

test.each([
  ["arrived", false, ["edit", "saved"], []],
  ["failed", true, ["store-full", "saved"], ["ask"]],
])("a repeat is decided once what it repeats has %s", async (_what, isFull, first, later) => {
  const { rooms, open, hasBegun, saveLoop } = roomsBehindGate();
  const doc = new Y.Doc();
  doc.getMap("trial").set("gone", 1);
  doc.getMap("trial").delete("gone"); // a deletion moves no state vector: only "decided" tells
  const { room } = await rooms.lease(key);
  const old = seatThatHears();
  room.enter(old.seat);
  room.receive(old.seat, updateFrame(Y.encodeStateAsUpdate(doc)));
  await hasBegun;
  room.leave(old.seat);

  const next = seatThatHears();
  room.enter(next.seat);
  next.heard.length = 0;
  room.receive(next.seat, step2Frame(Y.encodeStateAsUpdate(doc)));
  expect(next.heard).toEqual([]);
  open(isFull);
  await saveLoop.flush();
  expect(next.heard).toEqual(first);
  next.heard.length = 0;
  room.retry();
  expect(next.heard).toEqual(later);
  room.leave(next.seat);
});
