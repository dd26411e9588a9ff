/**
 * Rooms under comings and goings: loaded once, never empty for a newcomer, gone when the last one
 * left.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Me } from "@halflap/wire/api";
import { seatsPerMemberMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import fc from "fast-check";
import * as decoding from "lib0/decoding";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import type { DocumentKey, UpdateLog } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "../store/secret.ts";
import { openStore } from "../store/sqlite/store.ts";
import type { Store } from "../store/store.ts";
import { step1Frame, step2Frame, updateFrame } from "./frames.ts";
import { type Lease, Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";
import { Seat } from "./seat.ts";

const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };

let folder: string;
let store: Store;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-rooms-"));
  store = openStore({ path: join(folder, "rooms.sqlite"), pagesMax: undefined }, () => 1);
});

afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

/** The store with every answer some turns of the event loop late. */
function late(log: UpdateLog, turns: () => number): UpdateLog {
  const wait = async () => {
    for (let left = turns(); left > 0; left -= 1) await turn();
  };
  return {
    append: (rows) => wait().then(() => log.append(rows)),
    load: (key) => wait().then(() => log.load(key)),
    compact: (...fold) => wait().then(() => log.compact(...fold)),
    newest: (key) => log.newest(key),
    since: (...asked) => wait().then(() => log.since(...asked)),
    heads: (keys) => wait().then(() => log.heads(keys)),
  };
}

function turn(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

async function boardWith(log: UpdateLog) {
  const board = makeBoardId();
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  const faults: unknown[] = [];
  const onFault = (fault: unknown) => faults.push(fault);
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  const rooms = new Rooms({ log, people: store.people, saveLoop, onFault });
  const key: DocumentKey = { board, document: "board" };
  return { rooms, saveLoop, key, faults };
}

/** A page: a document that says and hears the protocol's frames. */
class Page {
  readonly doc = new Y.Doc();
  private lease: Lease | undefined;
  private readonly seat: Seat;
  private readonly now: () => number;

  constructor(now: () => number) {
    this.now = now;
    this.seat = new Seat({
      member: leader.id,
      wantsSaved: true,
      now,
      line: { send: (frame) => this.hear(frame), close: () => undefined, buffered: () => 0 },
    });
    this.doc.on("update", (update: Uint8Array, origin: unknown) => {
      if (origin !== this) this.say(updateFrame(update));
    });
  }

  async come(rooms: Rooms, key: DocumentKey): Promise<void> {
    this.lease = await rooms.lease(key);
    this.lease.room.enter(this.seat);
    this.say(step1Frame(Y.encodeStateVector(this.doc)));
  }

  go(): void {
    this.lease?.room.leave(this.seat);
    this.lease?.release();
    this.lease = undefined;
  }

  write(key: string): void {
    this.doc.getMap("m").set(key, this.now());
  }

  private say(frame: Uint8Array): void {
    this.lease?.room.receive(this.seat, frame);
  }

  private hear(frame: Uint8Array): void {
    const decoder = decoding.createDecoder(frame);
    if (decoding.readVarUint(decoder) !== 0) return;
    const kind = decoding.readVarUint(decoder);
    const bytes = decoding.readVarUint8Array(decoder);
    if (kind === 0) this.say(step2Frame(Y.encodeStateAsUpdate(this.doc, bytes)));
    else Y.applyUpdate(this.doc, bytes, this);
  }
}

/** A log, and a document of all that it has said to be stored. */
function remembering(log: UpdateLog) {
  const said = new Y.Doc();
  const append: UpdateLog["append"] = async (rows) => {
    const decided = await log.append(rows);
    for (const { update } of rows) Y.applyUpdate(said, update);
    return decided;
  };
  return { log: { ...log, append }, said };
}

async function keysIn(key: DocumentKey): Promise<readonly string[]> {
  const doc = new Y.Doc();
  for (const { update } of (await store.log.load(key)).rows) Y.applyUpdate(doc, update);
  expect(doc.store.pendingStructs).toBeNull();
  return Object.keys(doc.getMap("m").toJSON());
}

test("whatever the order of coming, writing and going, nothing written is lost", async () => {
  const step = fc.record({ who: fc.nat(3), turns: fc.nat(3), late: fc.nat(4) });
  const schedules = fc.array(step, { minLength: 5, maxLength: 30 });
  await fc.assert(
    fc.asyncProperty(schedules, async (steps) => {
      let lateBy = 0;
      const { log, said } = remembering(late(store.log, () => lateBy));
      const { rooms, saveLoop, key, faults } = await boardWith(log);
      let clock = 0;
      const now = () => {
        clock += 1000;
        return clock;
      };
      const here = new Map<number, Page>();
      const written: string[] = [];
      for (const { who, turns, late: by } of steps) {
        lateBy = by;
        const page = here.get(who);
        if (page === undefined) {
          const newcomer = new Page(now);
          here.set(who, newcomer);
          const stored = Object.keys(said.getMap("m").toJSON());
          await turn();
          await newcomer.come(rooms, key);
          expect(Object.keys(newcomer.doc.getMap("m").toJSON())).toEqual(
            expect.arrayContaining(stored),
          );
          newcomer.write(`${written.length}`);
          written.push(`${written.length}`);
        } else {
          here.delete(who);
          page.go();
        }
        for (let left = turns; left > 0; left -= 1) await turn();
      }
      await saveLoop.flush();
      for (const page of here.values()) {
        expect(Object.keys(page.doc.getMap("m").toJSON()).length).toBe(written.length);
        page.go();
      }
      for (let i = 0; i < 50 && rooms.size > 0; i += 1) await turn();
      expect(rooms.size).toBe(0);
      expect((await keysIn(key)).length).toBe(written.length);
      expect(faults).toEqual([]);
    }),
    { numRuns: 60 },
  );
});

test("many who come at once share one load and one room", async () => {
  let loads = 0;
  const slow = late(store.log, () => 20);
  const counted: UpdateLog = {
    ...slow,
    load: (key) => {
      loads += 1;
      return slow.load(key);
    },
  };
  const { rooms, key } = await boardWith(counted);
  const leases = await Promise.all(Array.from({ length: 200 }, () => rooms.lease(key)));
  expect(new Set(leases.map(({ room }) => room)).size).toBe(1);
  expect(loads).toBe(1);
  for (const { release } of leases) release();
});

/** A seat that only remembers how it was closed. */
function bareSeat(member = leader.id) {
  const codes: number[] = [];
  const line = {
    send: () => undefined,
    close: (code: number) => codes.push(code),
    buffered: () => 0,
  };
  return {
    seat: new Seat({ member, wantsSaved: false, now: () => 0, line }),
    codes,
  };
}

test("whoever was removed between the door and the seat is turned away", async () => {
  const { rooms, key } = await boardWith(store.log);
  const { room, release } = await rooms.lease(key);
  const removed = bareSeat(makeMemberId());
  room.enter(removed.seat);
  expect([removed.codes, room.seats.size]).toEqual([[closeCode.revoked], 0]);
  const staying = bareSeat();
  room.enter(staying.seat);
  expect([staying.codes, room.seats.size]).toEqual([[], 1]);
  room.leave(staying.seat);
  release();
});

test("a member sits in a room at most so often, until one of the seats is left", async () => {
  const { rooms, key } = await boardWith(store.log);
  const { room, release } = await rooms.lease(key);
  const seats = Array.from({ length: seatsPerMemberMax }, () => bareSeat());
  for (const { seat } of seats) room.enter(seat);
  const tooMany = bareSeat();
  room.enter(tooMany.seat);
  expect([tooMany.codes, room.seats.size]).toEqual([[closeCode.tryLater], seatsPerMemberMax]);
  const [first] = seats;
  if (first !== undefined) room.leave(first.seat);
  const next = bareSeat();
  room.enter(next.seat);
  expect(next.codes).toEqual([]);
  for (const seat of [...room.seats]) room.leave(seat);
  release();
});

test("a load that fails is told to everybody who waits, and the next one starts anew", async () => {
  let isBroken = true;
  const log: UpdateLog = {
    ...store.log,
    load: (key) => (isBroken ? Promise.reject(new Error("no disk")) : store.log.load(key)),
  };
  const { rooms, key } = await boardWith(log);
  const both = await Promise.allSettled([rooms.lease(key), rooms.lease(key)]);
  expect(both.map(({ status }) => status)).toEqual(["rejected", "rejected"]);
  await turn();
  isBroken = false;
  (await rooms.lease(key)).release();
});

test("a log that grew long is folded while the document is open, and work goes on", async () => {
  const { rooms, saveLoop, key } = await boardWith(store.log);
  let clock = 0;
  const now = () => {
    clock += 1000;
    return clock;
  };
  const page = new Page(now);
  await page.come(rooms, key);
  for (let i = 0; i < 600; i += 1) page.write(`k${i % 7}`);
  await saveLoop.flush();
  expect((await store.log.load(key)).rows.length).toBe(600);
  await rooms.compactLong();
  expect((await store.log.load(key)).rows.length).toBe(1);
  page.write("after");
  await saveLoop.flush();
  const newcomer = new Page(now);
  await newcomer.come(rooms, key);
  expect(newcomer.doc.getMap("m").toJSON()).toEqual(page.doc.getMap("m").toJSON());
  expect([...(await keysIn(key))].sort()).toEqual(
    Object.keys(page.doc.getMap("m").toJSON()).sort(),
  );
  page.go();
  newcomer.go();
});
