/**
 * Who opens a document while another node writes to it: whatever the order in which the log is
 * loaded, rows are committed and words of them arrive, nothing is missed, without a look besides.
 */
import { Follower } from "@halflap/server/follower";
import { type DocumentKey, type NewRow, type RowId, rowId } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { Rooms } from "@halflap/server/rooms";
import { SaveLoop, tickMs } from "@halflap/server/save-loop";
import {
  hashOf,
  makeBoardId,
  makeMemberId,
  makeMessageId,
  makeSecret,
} from "@halflap/server/secret";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { scheduleStore } from "../soak/schedule.ts";
import { steppingClock, turns } from "../soak/server-life.ts";
import { sharedLog } from "../soak/shared-log.ts";
import { type Chance, seeded } from "../support/seeded.ts";

const interleavings = 2_000;
const rowsEach = 6;
const member = makeMemberId();

/** A word is heard, or, by the wrong node, only once the document is open. */
type Hearing = "as built" | "while open";

describe(`${interleavings} interleavings of a load, commits and words`, () => {
  const each = interleavings / 10;
  test.each(Array.from({ length: 10 }, (_, i) => i * each))("from %i", async (first) => {
    expect(await missing(first, each, "as built")).toEqual([]);
  });
});

test("a node that hears of a document only once it is open is caught", async () => {
  expect(await missing(0, 100, "while open")).not.toEqual([]);
});

async function missing(first: number, count: number, hearing: Hearing): Promise<readonly string[]> {
  const store = scheduleStore();
  const faults: string[] = [];
  for (let seed = first; seed < first + count; seed += 1) {
    const read = await joinWhileWriting(store, seeded(seed), hearing);
    if (read !== rowsEach) faults.push(`seed ${seed}: ${read} of ${rowsEach} rows are there`);
  }
  await store.close();
  return faults;
}

/** How many of the rows are in the room in the end. */
async function joinWhileWriting(store: Store, chance: Chance, hearing: Hearing): Promise<number> {
  const key = await newDocument(store);
  const log = sharedLog(store.log);
  const node = nodeOver(store, log, chance);
  let isOpen = false;
  let heard: Promise<unknown> = Promise.resolve();
  const hear = (row: RowId) => {
    if (hearing === "as built" || isOpen) {
      heard = Promise.all([heard, node.follower.hear({ key, row })]);
    }
  };
  const writing = (async () => {
    for (const row of rowsOf(key)) {
      await turns(chance.below(4));
      const [decided] = await log.append([row]);
      if (decided?.kind !== "stored") throw new Error("a row is not stored");
      const late = chance.below(4);
      void turns(late).then(() => hear(decided.row));
    }
    await turns(4);
  })();
  await turns(chance.below(12));
  const lease = await node.rooms.lease(key);
  isOpen = true;
  await writing;
  await heard;
  const read = lease.room.held.position?.reached ?? rowId(0);
  lease.release();
  return read;
}

function nodeOver(store: Store, shared: Store["log"], chance: Chance) {
  const late = async <T>(answer: () => Promise<T>): Promise<T> => {
    await turns(chance.below(4));
    const got = await answer();
    await turns(chance.below(4));
    return got;
  };
  const log: Store["log"] = {
    ...shared,
    load: (key) => late(() => shared.load(key)),
    since: (key, after) => late(() => shared.since(key, after)),
    heads: (keys) => late(() => shared.heads(keys)),
  };
  const { people } = store;
  const onFault = (fault: unknown) => {
    throw fault;
  };
  const saveLoop = new SaveLoop({ log, now: steppingClock(tickMs), onFault });
  const rooms = new Rooms({ log, people, saveLoop, onFault, onBehind: () => undefined });
  const desk = { follow: async () => undefined, announce: async () => undefined };
  return { rooms, follower: new Follower({ log, people, rooms, desk, onFault }) };
}

async function newDocument({ people }: Store): Promise<DocumentKey> {
  const board = makeBoardId();
  const leader = { id: member, name: "Ada", role: "leader" } as const;
  const session = hashOf(makeSecret());
  await people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  return { board, document: "board" };
}

function rowsOf(key: DocumentKey): readonly NewRow[] {
  const doc = new Y.Doc();
  return Array.from({ length: rowsEach }, (_, i) => {
    const before = Y.encodeStateVector(doc);
    doc.getArray("order").push([i]);
    const update = Y.encodeStateAsUpdate(doc, before);
    return { key, message: makeMessageId(), update, bindings: [] };
  });
}
