/** W14, frames of other nodes for a document that is open here, or about to be. */
import { afterEach, expect, test, vi } from "vitest";
import { type DocumentKey, rowId, type StoredDocument, type UpdateLog } from "../store/log-port.ts";
import type { People } from "../store/people-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { awarenessFrame } from "./frames.ts";
import { Room } from "./room.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";

const key: DocumentKey = { board: makeBoardId(), document: "board" };
const frame = awarenessFrame([]);

afterEach(() => vi.restoreAllMocks());

test("what other nodes pass while a document opens is let go, not kept", async () => {
  let read: (stored: StoredDocument) => void = () => undefined;
  const log = {
    load: () =>
      new Promise<StoredDocument>((resolve) => {
        read = resolve;
      }),
  } as unknown as UpdateLog;
  const people = {
    standing: async () => undefined,
    documentBytes: async () => new Map(),
  } as unknown as People;
  const onFault = () => undefined;
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault });
  const rooms = new Rooms({ log, people, saveLoop, onFault, onBehind: () => undefined });
  const heard = vi.spyOn(Room.prototype, "hear");
  await rooms.hear({ key, frame });
  const opening = rooms.lease(key);
  for (let i = 0; i < 100; i += 1) void rooms.hear({ key, frame });
  read({ rows: [], bindings: [], head: rowId(0) });
  const lease = await opening;
  expect(heard).not.toHaveBeenCalled();
  await rooms.hear({ key, frame });
  expect(heard).toHaveBeenCalledTimes(1);
  lease.release();
});
