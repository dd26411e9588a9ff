/**
 * W7, what is passed on before it is on disk, what waits, and what becomes of what others heard
 * when it was lost.
 */
import { memberId } from "@halflap/board/talk";
import type { Me } from "@halflap/wire/api";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { PageAtRoom } from "../../../../tests/fakes/page-at-room.ts";
import {
  type Appended,
  type Binding,
  type DocumentKey,
  type NewRow,
  rowId,
  StoreFull,
} from "../store/log-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { step2Frame, updateFrame } from "./frames.ts";
import { authorsMs } from "./intake.ts";
import { Room } from "./room.ts";
import { SaveLoop } from "./save-loop.ts";

const ada: Me = { id: memberId("ada"), name: "Ada", role: "leader" };
const ben: Me = { id: memberId("ben"), name: "Ben", role: "player" };
const key: DocumentKey = { board: makeBoardId(), document: "board" };

/** A room over a disk that commits when told, or fails. */
function gatedRoom(bindings: readonly Binding[] = [{ client: 1, member: ada.id }]) {
  let time = 1000;
  let waiting: ((isFull: boolean) => void)[] = [];
  let rows = 0;
  const stored = (): Appended => {
    rows += 1;
    return { kind: "stored", row: rowId(rows) };
  };
  const append = (batch: readonly NewRow[]) =>
    new Promise<readonly Appended[]>((resolve, reject) => {
      waiting.push((isFull) => {
        if (isFull) reject(new StoreFull("full"));
        else resolve(batch.map(stored));
      });
    });
  const saveLoop = new SaveLoop({
    log: { append } as never,
    now: () => time,
    onFault: () => undefined,
  });
  const owners = { upper: ada.id, lower: undefined };
  const room = (document: DocumentKey["document"] = "board") =>
    new Room(
      { ...key, document },
      { rows: [], bindings, head: rowId(0) },
      {
        saveLoop,
        memberNow: (id) => [ada, ben].find((member) => member.id === id),
        ownersNow: () => owners,
      },
    );
  return {
    room,
    now: () => time,
    pass: (ms: number) => {
      time += ms;
    },
    /** Ends the commit that is under way, once it is. */
    async commit(isFull = false) {
      while (waiting.length === 0) await turn();
      const [end] = waiting;
      waiting = [];
      end?.(isFull);
      await turn();
    },
  };
}

function turn(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

/** A page that writes under client id 1, with the last thing that it sent. */
function writing(client = 1) {
  const doc = new Y.Doc();
  doc.clientID = client;
  const sent: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => sent.push(update));
  return { doc, map: doc.getMap("m"), last: () => sent.at(-1) ?? new Uint8Array() };
}

test("an edit under a known client id is heard at once, and said to be saved later", async () => {
  const { room: make, now, commit } = gatedRoom();
  const room = make();
  const [writer, reader] = [
    new PageAtRoom(room, ada.id, 91, now),
    new PageAtRoom(room, ben.id, 92, now),
  ];
  const { map, last } = writing();
  map.set("a", 1);
  room.receive(writer.seat, updateFrame(last()));
  expect([reader.heard, writer.heard]).toEqual([["edit"], []]);
  await commit();
  expect([reader.heard, writer.heard]).toEqual([["edit"], ["saved 1"]]);
});

test("the first edit of a page waits for its commit, and so does what follows it", async () => {
  const { room: make, now, commit } = gatedRoom([{ client: 2, member: ben.id }]);
  const room = make();
  const [first, second] = [
    new PageAtRoom(room, ada.id, 91, now),
    new PageAtRoom(room, ben.id, 92, now),
  ];
  const [one, two] = [writing(1), writing(2)];
  one.map.set("a", 1);
  two.map.set("b", 1);
  room.receive(first.seat, updateFrame(one.last()));
  room.receive(second.seat, updateFrame(two.last()));
  expect([first.heard, second.heard]).toEqual([[], []]);
  await commit();
  await commit();
  expect([second.heard, first.heard]).toEqual([
    ["edit", "saved 2"],
    ["saved 1", "edit"],
  ]);
  one.map.set("a", 2);
  second.heard.length = 0;
  room.receive(first.seat, updateFrame(one.last()));
  expect(second.heard).toEqual(["edit"]);
});

test("a deletion alone waits for its commit", async () => {
  const { room: make, now, commit } = gatedRoom();
  const room = make();
  const [writer, reader] = [
    new PageAtRoom(room, ada.id, 91, now),
    new PageAtRoom(room, ben.id, 92, now),
  ];
  const { map, last } = writing();
  map.set("a", 1);
  room.receive(writer.seat, updateFrame(last()));
  await commit();
  reader.heard.length = 0;
  map.delete("a");
  room.receive(writer.seat, updateFrame(last()));
  expect(reader.heard).toEqual([]);
  await commit();
  expect(reader.heard).toEqual(["edit"]);
});

test("once a commit failed nothing is heard before it is stored, until one succeeds", async () => {
  const { room: make, now, commit } = gatedRoom();
  const room = make();
  const [writer, reader] = [
    new PageAtRoom(room, ada.id, 91, now),
    new PageAtRoom(room, ben.id, 92, now),
  ];
  const { doc, map, last } = writing();
  map.set("a", 1);
  room.receive(writer.seat, updateFrame(last()));
  await commit(true);
  expect(writer.heard).toContain("store-full");
  reader.heard.length = 0;
  room.receive(writer.seat, step2Frame(Y.encodeStateAsUpdate(doc)));
  expect(reader.heard).toEqual([]);
  await commit();
  expect(reader.heard).toEqual(["edit"]);
  map.set("a", 2);
  room.receive(writer.seat, updateFrame(last()));
  expect(reader.heard).toEqual(["edit", "edit"]);
});

test("whoever comes between the passing on and the commit is told too", async () => {
  const { room: make, now, commit } = gatedRoom();
  const room = make();
  const writer = new PageAtRoom(room, ada.id, 91, now);
  const { map, last } = writing();
  map.set("a", 1);
  room.receive(writer.seat, updateFrame(last()));
  const newcomer = new PageAtRoom(room, ben.id, 92, now);
  room.receive(newcomer.seat, new Uint8Array([0, 0, 1, 0]));
  expect(newcomer.doc.getMap("m").toJSON()).toEqual({ a: 1 });
  await commit();
  expect(newcomer.doc.store.pendingStructs).toBeNull();
});

test.each([["board"], ["lane-upper"]] as const)(
  "what was heard and lost is no trespass of the hearer's: %s",
  async (document) => {
    const { room: make, now, pass, commit } = gatedRoom();
    const { doc, map, last } = writing();
    map.set("a", 1);
    const heard = Y.encodeStateAsUpdate(doc);
    const room = make(document); // as after a kill: it has heard nothing
    const hearer = new PageAtRoom(room, ben.id, 92, now);
    room.receive(hearer.seat, step2Frame(heard));
    expect(hearer.heard).toEqual(["saved 0"]);
    hearer.heard.length = 0;
    room.retry();
    expect(hearer.heard).toEqual(["asked"]);
    const author = new PageAtRoom(room, ada.id, 91, now);
    room.receive(author.seat, updateFrame(last()));
    await commit();
    pass(1000);
    room.receive(hearer.seat, step2Frame(heard));
    expect(hearer.heard).toEqual(["asked", "edit", "saved 1"]);
  },
);

test("it is refused when its author has not come for long, so that the page starts anew", () => {
  const { room: make, now, pass } = gatedRoom();
  const { doc, map } = writing();
  map.set("a", 1);
  const room = make("lane-upper");
  const hearer = new PageAtRoom(room, ben.id, 92, now);
  const answer = step2Frame(Y.encodeStateAsUpdate(doc));
  room.receive(hearer.seat, answer);
  pass(authorsMs - 1);
  room.receive(hearer.seat, answer);
  expect(hearer.heard).not.toContain("foreign-client");
  pass(1);
  room.receive(hearer.seat, answer);
  expect(hearer.heard).toContain("foreign-client");
});

test("but not while the disk is full: the room knows that its author is on it", async () => {
  const { room: make, now, pass, commit } = gatedRoom();
  const room = make();
  const [writer, hearer] = [
    new PageAtRoom(room, ada.id, 91, now),
    new PageAtRoom(room, ben.id, 92, now),
  ];
  const { map, last } = writing();
  map.set("a", 1);
  room.receive(writer.seat, updateFrame(last()));
  await commit(true);
  const answer = step2Frame(Y.encodeStateAsUpdate(hearer.doc));
  room.receive(hearer.seat, answer);
  pass(2 * authorsMs);
  room.receive(hearer.seat, answer);
  expect(hearer.heard).not.toContain("foreign-client");
});

test("own news in a lane that is not one's own stay a trespass, whatever was heard", () => {
  const { room: make, now } = gatedRoom();
  const { doc, map } = writing();
  map.set("a", 1);
  const room = make("lane-upper");
  const hearer = new PageAtRoom(room, ben.id, 92, now);
  const own = writing(9);
  Y.applyUpdate(own.doc, Y.encodeStateAsUpdate(doc));
  own.map.set("mine", 1);
  room.receive(hearer.seat, step2Frame(Y.encodeStateAsUpdate(own.doc)));
  expect(hearer.heard).toEqual(["not-yours", "saved 0"]);
});
