/** Who is present at other nodes: told to newcomers, taken back when nobody speaks for them. */
import { memberId } from "@halflap/board/talk";
import { expect, test } from "vitest";
import { readEntries } from "./awareness-gate.ts";
import { awarenessFrame, decodeFrame, type PresenceEntry } from "./frames.ts";
import { elsewhereMs, Presences } from "./presences.ts";
import { Seat } from "./seat.ts";

const ada: PresenceEntry = { client: 7, clock: 3, state: '{"member":"ada","name":"Ada"}' };

/** The entries of an awareness message, as a node passes them. */
function entriesIn(frame: Uint8Array): Uint8Array {
  const decoded = decodeFrame(frame);
  if (decoded.kind !== "awareness") throw new Error("no presence");
  return decoded.entries;
}

const passed = (entry: PresenceEntry) => entriesIn(awarenessFrame([entry]));
const line = { send: () => undefined, close: () => undefined, buffered: () => 0 };
const newSeat = () => new Seat({ member: memberId("ada"), wantsSaved: false, now: () => 0, line });
/** Where nobody's id is anybody else's. */
const hearAway = (presences: Presences, bytes: Uint8Array, nowMs: number) =>
  presences.hearElsewhere(bytes, () => true, nowMs);
const present = (presences: Presences) => readEntries(entriesIn(presences.frame()));

test("somebody at another node is told to newcomers until they leave", () => {
  const presences = new Presences();
  expect(hearAway(presences, passed(ada), 0)).toEqual([ada]);
  expect(present(presences)).toEqual([ada]);
  expect(readEntries(entriesIn(presences.ownFrame()))).toEqual([]);
  hearAway(presences, passed({ ...ada, state: "null" }), 1);
  expect(present(presences)).toEqual([]);
});

test("somebody whom no node speaks for any more is taken back, once", () => {
  const presences = new Presences();
  hearAway(presences, passed(ada), 0);
  hearAway(presences, passed({ ...ada, clock: 4 }), 1000);
  expect(presences.forgetSilent(elsewhereMs + 1000)).toEqual([]);
  expect(presences.forgetSilent(elsewhereMs + 1001)).toEqual([{ ...ada, clock: 4, state: "null" }]);
  expect(presences.forgetSilent(elsewhereMs + 1002)).toEqual([]);
  expect(present(presences)).toEqual([]);
});

test("a page that has come here from another node is spoken for here", () => {
  const presences = new Presences();
  hearAway(presences, passed(ada), 0);
  presences.hear(newSeat(), "Ada", passed({ ...ada, clock: 4 }), () => undefined);
  expect(hearAway(presences, passed({ ...ada, state: "null" }), 1)).toEqual([]);
  expect(present(presences)).toEqual([{ ...ada, clock: 4 }]);
  expect(presences.forgetSilent(2 * elsewhereMs)).toEqual([]);
});

test("what is late counts for nothing beside what was said after it, wherever that was", () => {
  const presences = new Presences();
  const later = { ...ada, clock: 4 };
  hearAway(presences, passed(later), 0);
  // Its line to the node before that one has ended only now.
  expect(hearAway(presences, passed({ ...ada, state: "null" }), 1)).toEqual([]);
  expect(present(presences)).toEqual([later]);
  const gone = { ...later, state: "null" };
  expect(hearAway(presences, passed(gone), 2)).toEqual([gone]);
  expect(hearAway(presences, passed(later), 3)).toEqual([]);
  expect(present(presences)).toEqual([]);
  expect(presences.forgetSilent(elsewhereMs + 3)).toEqual([]);
  expect(hearAway(presences, passed(later), elsewhereMs + 4)).toEqual([later]);
});

test("a page that has gone to another node is seen there before its line here has ended", () => {
  const presences = new Presences();
  const seat = newSeat();
  presences.hear(seat, "Ada", passed(ada), () => undefined);
  const later = { ...ada, clock: 4 };
  expect(hearAway(presences, passed(later), 1)).toEqual([later]);
  expect(present(presences)).toEqual([later]);
  presences.leave(seat);
  expect(present(presences)).toEqual([later]);
});

test("a page hears that it is taken for gone, so that it can say that it is not", () => {
  const presences = new Presences();
  presences.hear(newSeat(), "Ada", passed(ada), () => undefined);
  const gone = { ...ada, state: "null" };
  expect(hearAway(presences, passed(gone), 1)).toEqual([gone]);
  expect(present(presences)).toEqual([ada]);
});
