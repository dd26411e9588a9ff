/** Documents that can't be read: refused alone, left alone for their time, and read again then. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Me } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import type { DocumentKey, UpdateLog } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../store/secret.ts";
import { openStore } from "../store/sqlite/store.ts";
import type { Store } from "../store/store.ts";
import { rowsBeforeCompaction } from "./compaction.ts";
import { foldingHere } from "./folding-here.ts";
import { Unreadable } from "./folding-port.ts";
import { Quarantine, quarantineMs, SetAside } from "./quarantine.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";
import { Seat } from "./seat.ts";

const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };
const board = makeBoardId();
const chart: DocumentKey = { board, document: "board" };
const lane: DocumentKey = { board, document: "lane-upper" };

let folder: string;
let store: Store;
let clock: number;
let loads: number;
let toldOf: string[];
let faults: unknown[];
let rooms: Rooms;
let quarantine: Quarantine;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-aside-"));
  store = openStore({ path: join(folder, "aside.sqlite"), pagesMax: undefined }, () => 1);
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  [clock, loads, toldOf, faults] = [0, 0, [], []];
  const onSetAside = (key: DocumentKey) => toldOf.push(key.document);
  quarantine = new Quarantine({ clock: () => clock, onSetAside });
  rooms = roomsOver({ ...foldingHere });
});

afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

function roomsOver(folding: typeof foldingHere): Rooms {
  const log: UpdateLog = {
    ...store.log,
    load: (key) => {
      loads += 1;
      return store.log.load(key);
    },
  };
  const onFault = (fault: unknown) => faults.push(fault);
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  return new Rooms({ log, people: store.people, saveLoop, onFault, folding, quarantine });
}

const rowOf = (key: DocumentKey, update: Uint8Array) => {
  return { key, message: makeMessageId(), update, bindings: [] };
};

function edits(count: number): readonly Uint8Array[] {
  const doc = new Y.Doc();
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  for (let i = 0; i < count; i += 1) doc.getMap("m").set(`k${i}`, i);
  return updates;
}

/** Lets what has begun come to its end. */
async function settled(): Promise<void> {
  for (let left = 20; left > 0; left -= 1) await new Promise((resolve) => setImmediate(resolve));
}

test("one that can't be read is refused unread for its time, then read again", async () => {
  await store.log.append([rowOf(chart, new Uint8Array([1, 2, 3])), ...lanes()]);
  await expect(rooms.lease(chart)).rejects.toThrow(SetAside);
  expect([toldOf, quarantine.counts()]).toEqual([["board"], new Map([["board", 1]])]);
  await settled();
  expect([rooms.size, quarantine.holds(chart), quarantine.holds(lane)]).toEqual([0, true, false]);
  const before = loads;
  clock = quarantineMs - 1;
  await expect(rooms.lease(chart)).rejects.toThrow(SetAside);
  expect([loads, toldOf]).toEqual([before, ["board"]]);
  (await rooms.lease(lane)).release();
  clock = quarantineMs;
  expect([quarantine.holds(chart), quarantine.counts().get("board")]).toEqual([false, 1]);
  await expect(rooms.lease(chart)).rejects.toThrow(SetAside);
  expect([loads, toldOf]).toEqual([before + 2, ["board", "board"]]);
});

const lanes = () => edits(3).map((update) => rowOf(lane, update));

test("mended, it opens once its time is over, and is counted no more", async () => {
  const [first, ...later] = edits(3);
  await store.log.append(later.map((update) => rowOf(chart, update)));
  await expect(rooms.lease(chart)).rejects.toThrow(SetAside); // what they build on is missing
  if (first !== undefined) await store.log.append([rowOf(chart, first)]);
  clock = quarantineMs;
  const { room, release } = await rooms.lease(chart);
  const doc = new Y.Doc();
  Y.applyUpdate(doc, room.held.bytes.merged());
  expect(Object.keys(doc.getMap("m").toJSON())).toHaveLength(3);
  expect(quarantine.counts().size).toBe(0);
  release();
});

test("set aside while it is open, it sends away whoever sits in it, and nobody else", async () => {
  await store.log.append(lanes());
  const seatIn = async (key: DocumentKey) => {
    const codes: number[] = [];
    const line = {
      send: () => undefined,
      close: (code: number) => codes.push(code),
      buffered: () => 0,
    };
    (await rooms.lease(key)).room.enter(
      new Seat({ member: leader.id, wantsSaved: false, line, now: () => 0 }),
    );
    return codes;
  };
  const [inChart, inLane] = [await seatIn(chart), await seatIn(lane)];
  await rooms.setAside(chart, new Error("a row that came from elsewhere can't be read"));
  expect([inChart, inLane]).toEqual([[closeCode.unreadable], []]);
  expect(quarantine.holds(chart)).toBe(true);
  // Those lines have not ended yet, so the room is still there.
  await expect(rooms.lease(chart)).rejects.toThrow(SetAside);
});

test("one that can't be folded stays open, and is folded again at twice the rows", async () => {
  let folds = 0;
  rooms = roomsOver({
    ...foldingHere,
    fold: async () => {
      folds += 1;
      throw new Unreadable("its fold differs");
    },
  });
  const all = edits(2 * rowsBeforeCompaction + 4);
  await store.log.append(
    all.slice(0, rowsBeforeCompaction + 1).map((update) => rowOf(chart, update)),
  );
  const { release } = await rooms.lease(chart);
  await rooms.compactLong();
  await rooms.compactLong();
  expect([folds, faults.length, quarantine.holds(chart)]).toEqual([1, 1, false]);
  release();
  await settled();
  expect(folds).toBe(1);
  await store.log.append(all.slice(rowsBeforeCompaction + 1).map((update) => rowOf(chart, update)));
  (await rooms.lease(chart)).release();
  await settled();
  expect(folds).toBe(2);
});
