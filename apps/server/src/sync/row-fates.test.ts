/** What becomes of an update whose row is not simply stored, for its writer and for the others. */
import { memberId } from "@halflap/board/talk";
import type { Me } from "@halflap/wire/api";
import { unsavedBytesMax } from "@halflap/wire/limits";
import { closeCode, decodeRefused, refusedMessage } from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { type Appended, type DocumentKey, rowId, type UpdateLog } from "../store/log-port.ts";
import { makeBoardId, makeMessageId } from "../store/secret.ts";
import { updateFrame } from "./frames.ts";
import { HeldDocument, ownParts } from "./held-document.ts";
import { Room } from "./room.ts";
import { SaveLoop } from "./save-loop.ts";
import { Seat } from "./seat.ts";

const key: DocumentKey = { board: makeBoardId(), document: "board" };
const ada: Me = { id: memberId("ada"), name: "Ada", role: "leader" };
const ben: Me = { id: memberId("ben"), name: "Ben", role: "player" };
const nothing = { rows: [], bindings: [], head: rowId(0) };

/** A room over a log that decides as it is told, and a seat for each of the two. */
function roomDeciding(decide: () => Appended) {
  const batches: number[] = [];
  const append: UpdateLog["append"] = async (rows) => {
    batches.push(rows.length);
    return rows.map(decide);
  };
  const log = { append } as unknown as UpdateLog;
  const saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault: () => undefined });
  const room = new Room(key, nothing, {
    saveLoop,
    memberNow: (id) => [ada, ben].find((member) => member.id === id),
    ownersNow: () => ({ upper: undefined, lower: undefined }),
  });
  return { room, saveLoop, batches, first: seated(room, ada), second: seated(room, ben) };
}

function seated(room: Room, { id }: Me) {
  const frames: Uint8Array[] = [];
  const codes: number[] = [];
  const line = {
    send: (frame: Uint8Array) => frames.push(frame),
    close: (code: number) => codes.push(code),
    buffered: () => 0,
  };
  const seat = new Seat({
    member: id,
    wantsSaved: true,
    now: () => performance.now(),
    line,
  });
  room.enter(seat);
  const refusals = () =>
    frames.flatMap((frame) => {
      const decoder = decoding.createDecoder(frame);
      return decoding.readVarUint(decoder) === refusedMessage ? [decodeRefused(decoder)] : [];
    });
  const updates = () => frames.filter((frame) => frame[0] === 0 && frame[1] === 2).length;
  return { seat, codes, refusals, updates };
}

function editUnder(client: number, value: string): Uint8Array {
  const doc = new Y.Doc();
  doc.clientID = client;
  doc.getMap("m").set("k", value);
  return Y.encodeStateAsUpdate(doc);
}

test("W5 a client id that the store knows as another's is refused, and stays theirs", async () => {
  let kind: "foreign" | "stored" = "foreign";
  const { room, saveLoop, first, second } = roomDeciding(() =>
    kind === "stored" ? { kind, row: rowId(1) } : { kind },
  );
  room.receive(first.seat, updateFrame(editUnder(7, "ada's")));
  await saveLoop.flush();
  expect([first.refusals(), second.updates()]).toEqual([["foreign-client"], 0]);
  expect(room.held.isSaving).toBe(false);
  kind = "stored";
  room.receive(second.seat, updateFrame(editUnder(7, "ben's")));
  await saveLoop.flush();
  expect([second.refusals(), first.updates()]).toEqual([[], 1]);
  // From here on the id is Ben's, in memory too.
  room.receive(first.seat, updateFrame(editUnder(7, "ada's again, and longer")));
  await saveLoop.flush();
  expect(second.updates()).toBe(0);
});

test("W3 of a board that is gone everybody is sent away", async () => {
  const { room, saveLoop, first, second } = roomDeciding(() => ({ kind: "gone" }));
  room.receive(first.seat, updateFrame(editUnder(7, "x")));
  await saveLoop.flush();
  expect([first.codes, second.codes]).toEqual([[closeCode.revoked], [closeCode.revoked]]);
  expect(room.seats.size).toBe(0);
});

test("W3 beyond what may wait a writer is sent to come again", async () => {
  const { room, saveLoop, batches, first } = roomDeciding(() => ({
    kind: "stored",
    row: rowId(1),
  }));
  const large = {
    key: { ...key, document: "talk" } as const,
    message: makeMessageId(),
    update: new Uint8Array(unsavedBytesMax),
    bindings: [],
  };
  saveLoop.save(large, () => undefined);
  room.receive(first.seat, updateFrame(editUnder(7, "x")));
  expect(first.codes).toEqual([closeCode.tryLater]);
  await saveLoop.flush();
  expect([batches, room.held.known.clockOf(7)]).toEqual([[1], 0]);
});

test("what arrives while a folded log is read again is not lost from memory", async () => {
  const held = new HeldDocument(nothing);
  const early = editUnder(1, "early");
  const late = editUnder(2, "late");
  const arrive = (update: Uint8Array) => {
    const parts = ownParts(update);
    held.begin({ update, parts, bindings: [] }, false);
    const row = { key, message: makeMessageId(), update, bindings: [] };
    held.arrived(row, { parts, isHeard: false }, rowId(1));
  };
  arrive(early);
  await held.reload(async () => {
    arrive(late);
    return { ...nothing, rows: [{ id: rowId(1), update: early }], head: rowId(1) };
  });
  const doc = new Y.Doc();
  Y.applyUpdate(doc, held.bytes.merged());
  expect([...doc.store.clients.keys()].sort()).toEqual([1, 2]);
});
