/** A document that opens slowly, as one that is large or hostile does, holds up itself alone. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Me } from "@halflap/wire/api";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { DocumentKey, UpdateLog } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../store/secret.ts";
import { openStore } from "../store/sqlite/store.ts";
import { Follower } from "./follower.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";

const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };
const key: DocumentKey = { board: makeBoardId(), document: "board" };
const slow: DocumentKey = { ...key, document: "lane-upper" };

test("while one document opens the open ones follow what other nodes write", async () => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-slow-"));
  const store = openStore({ path: join(folder, "slow.sqlite"), pagesMax: undefined }, () => 1);
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: key.board, leader, session, at: 1, rows: [] });
  let letOpen = () => {};
  const opens = new Promise<void>((resolve) => {
    letOpen = resolve;
  });
  const load: UpdateLog["load"] = async (asked) => {
    if (asked.document === slow.document) await opens;
    return store.log.load(asked);
  };
  const faults: unknown[] = [];
  const around = {
    log: { ...store.log, load },
    people: store.people,
    onFault: (fault: unknown) => faults.push(fault),
  };
  const saveLoop = new SaveLoop({ ...around, now: () => performance.now() });
  const rooms = new Rooms({ ...around, saveLoop, onBehind: () => undefined });
  const desk = { follow: async () => undefined, announce: async () => undefined };
  const follower = new Follower({ ...around, rooms, desk });
  const { room, release } = await rooms.lease(key);
  const opening = rooms.lease(slow);

  const elsewhere = new Y.Doc();
  elsewhere.getMap("m").set("by another node", 1);
  const update = Y.encodeStateAsUpdate(elsewhere);
  await store.log.append([{ key, message: makeMessageId(), update, bindings: [] }]);
  await follower.look();
  const here = new Y.Doc();
  Y.applyUpdate(here, room.held.bytes.merged());
  expect(here.getMap("m").toJSON()).toEqual({ "by another node": 1 });
  expect(rooms.open()).toEqual([room]);

  letOpen();
  const opened = await opening;
  expect(rooms.open(key.board)).toEqual([room, opened.room]);
  expect(rooms.open(makeBoardId())).toEqual([]);
  expect(faults).toEqual([]);
  opened.release();
  release();
  await store.close();
  rmSync(folder, { recursive: true });
});
