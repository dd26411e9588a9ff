/**
 * W8: the tables decide, and `talk` becomes their picture, at the latest when the disk has room.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readTalkState } from "@halflap/board/talk";
import type { Me } from "@halflap/wire/api";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import { type DocumentKey, StoreAway, StoreFull, type UpdateLog } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "../store/secret.ts";
import { openStore } from "../store/sqlite/store.ts";
import type { Store } from "../store/store.ts";
import { BoardDesk, talkUpdate } from "./board-desk.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";

const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };
const board = makeBoardId();
const talk: DocumentKey = { board, document: "talk" };

let folder: string;
let store: Store;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-desk-"));
  store = openStore({ path: join(folder, "desk.sqlite"), pagesMax: undefined }, () => 1);
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
});

afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

async function ownersInTalk() {
  const doc = new Y.Doc();
  for (const { update } of (await store.log.load(talk)).rows) Y.applyUpdate(doc, update);
  return readTalkState(doc).owners;
}

test("a lane claimed on a full disk is claimed, and told once there is room", async () => {
  let isFull = true;
  const log: UpdateLog = {
    ...store.log,
    append: (rows) =>
      isFull ? Promise.reject(new StoreFull("the store is full")) : store.log.append(rows),
  };
  const onFault = () => undefined;
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  const desk = new BoardDesk(new Rooms({ log, people: store.people, saveLoop, onFault }), onFault);
  expect(await store.people.claim(board, "upper", leader.id)).toBe("claimed");
  await desk.announce(board);
  await desk.retry();
  expect((await ownersInTalk()).upper).toBeUndefined();
  isFull = false;
  await desk.retry();
  expect((await ownersInTalk()).upper).toBe(leader.id);
  const { length } = (await store.log.load(talk)).rows;
  await desk.retry();
  expect((await store.log.load(talk)).rows).toHaveLength(length);
});

test("a name that is longer than talk holds is cut there, and stops nothing else", async () => {
  const long = { id: makeMemberId(), name: `A${"\u{1f600}".repeat(40)}`, role: "player" } as const;
  const owners = { upper: leader.id, lower: undefined };
  const standing = { members: [leader, long], owners, takes: [] };
  const update = talkUpdate(Y.encodeStateAsUpdate(new Y.Doc()), standing);
  const told = new Y.Doc();
  if (update !== undefined) Y.applyUpdate(told, update);
  const cut = { ...long, name: `A${"\u{1f600}".repeat(29)}` };
  expect(readTalkState(told)).toMatchObject({ members: [leader, cut], owners });
  expect(talkUpdate(Y.encodeStateAsUpdate(told), standing)).toBeUndefined();
});

test("what is being told is not queued again and again while the store is away", async () => {
  const onFault = () => undefined;
  let letFail = () => {};
  const away = new Promise<never>((_, reject) => {
    letFail = () => reject(new StoreAway("the store is away"));
  });
  let [isAway, asked] = [false, 0];
  const people: Store["people"] = {
    ...store.people,
    standing: (of) => {
      asked += 1;
      return isAway ? away : store.people.standing(of);
    },
  };
  const log: UpdateLog = { ...store.log, append: () => Promise.reject(new StoreFull("full")) };
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  const desk = new BoardDesk(new Rooms({ log, people, saveLoop, onFault }), onFault);
  expect(await store.people.claim(board, "lower", leader.id)).toBe("claimed");
  await desk.announce(board);
  [isAway, asked] = [true, 0];
  const first = desk.retry();
  await Promise.all(Array.from({ length: 20 }, () => desk.retry()));
  letFail();
  await expect(first).rejects.toThrow(StoreAway);
  await new Promise((resolve) => setImmediate(resolve));
  expect(asked).toBe(1);
});

test("one telling that waits serves all who ask meanwhile, with what they changed", async () => {
  const onFault = (fault: unknown) => expect.unreachable(String(fault));
  let asked = 0;
  let letGo = () => {};
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  const people: Store["people"] = {
    ...store.people,
    async standing(of) {
      asked += 1;
      const standing = await store.people.standing(of);
      await held;
      return standing;
    },
  };
  const { log } = store;
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  const desk = new BoardDesk(new Rooms({ log, people, saveLoop, onFault }), onFault);
  const first = desk.announce(board);
  await new Promise((resolve) => setImmediate(resolve));
  expect(asked).toBe(1);
  expect(await store.people.claim(board, "upper", leader.id)).toBe("claimed");
  const others = Array.from({ length: 20 }, () => desk.announce(board));
  letGo();
  await others.at(-1);
  expect((await ownersInTalk()).upper).toBe(leader.id);
  await Promise.all([first, ...others]);
  expect(asked).toBeLessThanOrEqual(4); // each of two tellings, and each opening of the room
});

test("a change stands while the store is away, and is told when it is back", async () => {
  const faults: unknown[] = [];
  const onFault = (fault: unknown) => faults.push(fault);
  let isAway = false;
  const people: Store["people"] = {
    ...store.people,
    standing: (of) => (isAway ? Promise.reject(new StoreAway("away")) : store.people.standing(of)),
  };
  const { log } = store;
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  const desk = new BoardDesk(new Rooms({ log, people, saveLoop, onFault }), onFault);
  expect(await store.people.claim(board, "upper", leader.id)).toBe("claimed");
  isAway = true;
  await desk.announce(board);
  expect(faults).toEqual([expect.any(StoreAway)]);
  await expect(desk.retry()).rejects.toThrow(StoreAway);
  isAway = false;
  await desk.retry();
  expect((await ownersInTalk()).upper).toBe(leader.id);
});
