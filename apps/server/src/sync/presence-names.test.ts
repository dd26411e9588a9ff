/** W5.3 over nodes: a client id belongs to whose presence named it first, wherever that was. */
import type { MemberId } from "@halflap/board/board";
import { memberId } from "@halflap/board/talk";
import { expect, test } from "vitest";
import { PageAtRoom } from "../../../../tests/fakes/page-at-room.ts";
import { rowId } from "../store/log-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { readEntries } from "./awareness-gate.ts";
import { awarenessFrame, decodeFrame, queryFrame } from "./frames.ts";
import { Room } from "./room.ts";
import { SaveLoop } from "./save-loop.ts";

const [ada, mal] = [memberId("ada"), memberId("mal")];
const key = { board: makeBoardId(), document: "board" } as const;
const pageId = 7;

/** One document's rooms at two nodes, each of which hears what the other passes at once. */
function twoNodes() {
  const append = async (rows: readonly unknown[]) =>
    rows.map((_, i) => ({ kind: "stored", row: rowId(i + 1) }));
  const log = { append } as never;
  const saveLoop = new SaveLoop({ log, now: () => 0, onFault: () => undefined });
  const open = (other: () => Room | undefined) =>
    new Room(
      key,
      { rows: [], bindings: [], head: rowId(0) },
      {
        saveLoop,
        memberNow: (id) => ({ id, name: id, role: "player" }),
        ownersNow: () => ({ upper: undefined, lower: undefined }),
        cross: (frame) => other()?.hear(frame),
      },
    );
  const rooms: Room[] = [];
  rooms.push(open(() => rooms[1]));
  const openOther = () => {
    const room = open(() => rooms[0]);
    rooms.push(room);
    return room;
  };
  return { here: rooms[0] as Room, openOther };
}

const stateOf = (member: MemberId) => JSON.stringify({ member, name: member });
const presence = (member: MemberId, clock: number) =>
  awarenessFrame([{ client: pageId, clock, state: stateOf(member) }]);
const sit = (room: Room, member: MemberId) => new PageAtRoom(room, member, pageId, () => 0);
const say = (room: Room, page: PageAtRoom, clock: number) =>
  room.receive(page.seat, presence(page.seat.member, clock));

/** Who is present under the page's id, as newcomers to a room are told. */
function presentAt(room: Room): string | undefined {
  const heard: Uint8Array[] = [];
  const page = sit(room, mal);
  page.seat.send = (frame) => void heard.push(frame);
  room.receive(page.seat, queryFrame);
  const frame = decodeFrame(heard[0] ?? new Uint8Array());
  const entries = frame.kind === "awareness" ? readEntries(frame.entries) : [];
  return entries.find(({ client }) => client === pageId)?.state;
}

test.each(["open already", "opened later"])(
  "who is present at one node is nobody else at another, %s, nor writes there as them",
  (when) => {
    const { here, openOther } = twoNodes();
    const early = when === "open already" ? openOther() : undefined;
    const page = sit(here, ada);
    say(here, page, 0);
    const there = early ?? openOther();
    const forger = sit(there, mal);
    say(there, forger, 2);
    expect([presentAt(here), presentAt(there)]).toEqual([stateOf(ada), stateOf(ada)]);
    forger.hears();
    forger.map.set("taken", 1);
    expect(forger.hears()).toContain("foreign-client");
    here.leave(page.seat); // it is hers while she is away, too
    forger.map.set("taken", 2);
    expect(forger.hears()).toContain("foreign-client");
    page.hears();
    sit(there, ada).map.set("hers", 1);
    expect(there.held.ownerOf(pageId)).toBe(ada);
  },
);

test("presence that comes from another node under somebody's id replaces theirs nowhere", () => {
  const { here } = twoNodes();
  const page = sit(here, ada);
  say(here, page, 0);
  page.seat.send = (frame) => expect(frame).not.toEqual(presence(mal, 2));
  here.hear(presence(mal, 2)); // from a node that has not heard of her
  expect(presentAt(here)).toBe(stateOf(ada));
  here.hear(presence(ada, 3)); // her own page, gone on to that node
  expect(presentAt(here)).toBe(stateOf(ada));
  expect(here.held.ownerOf(pageId)).toBe(ada);
});
