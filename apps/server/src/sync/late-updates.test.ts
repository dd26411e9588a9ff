/** What waits for the log to be read on is bounded by what it takes up, however small each is. */
import { memberId } from "@halflap/board/talk";
import { lateBytesMax, unsavedBytesMax } from "@halflap/wire/limits";
import { expect, test } from "vitest";
import { LateBytes, LateUpdates } from "./late-updates.ts";
import { Seat } from "./seat.ts";

const line = { send: () => undefined, close: () => undefined, buffered: () => 0 };
const newSeat = () => new Seat({ member: memberId("ada"), wantsSaved: true, now: () => 0, line });
const usual = newSeat();

function coming(update: Uint8Array, seat = usual) {
  const frame = { kind: "update", as: "edit", update, whole: update } as const;
  return { seat, frame, number: 1, lateSince: undefined };
}

test("the smallest edits count for what holding them costs", () => {
  const late = new LateUpdates(new LateBytes());
  let count = 0;
  while (late.add(coming(new Uint8Array(10)))) count += 1;
  expect(count).toBeLessThan(unsavedBytesMax / 1000);
  expect(late.takeUpTo(late.mark)).toHaveLength(count);
  expect(late.add(coming(new Uint8Array(10)))).toBe(true);
});

test("an edit that waits does not keep what came with it", () => {
  const late = new LateUpdates(new LateBytes());
  const came = new Uint8Array(60_000);
  late.add(coming(came.subarray(100, 120)));
  const [held] = late.takeUpTo(late.mark);
  expect(held?.frame.update.buffer.byteLength).toBe(20);
  expect(held?.frame.whole).toBeUndefined();
});

test("what waits in all rooms together is bounded, and has room again for what goes", () => {
  const all = new LateBytes();
  const large = new Uint8Array(unsavedBytesMax - 1024);
  const rooms = Array.from({ length: lateBytesMax / unsavedBytesMax }, () => new LateUpdates(all));
  expect(rooms.map((room) => room.add(coming(large)))).toEqual(rooms.map(() => true));
  const more = new LateUpdates(all);
  const small = coming(new Uint8Array(10));
  expect(more.add(small)).toBe(false);
  rooms[0]?.takeUpTo(rooms[0].mark);
  expect(more.add(small)).toBe(true);
  for (const room of [...rooms, more]) room.forget(usual);
  expect(all.held).toBe(0);
});

test("what comes behind a mark is not taken with what lay before it, whoever leaves", () => {
  const all = new LateBytes();
  const late = new LateUpdates(all);
  const other = newSeat();
  late.add(coming(new Uint8Array(1)));
  late.add(coming(new Uint8Array(2), other));
  const mark = late.mark;
  late.add(coming(new Uint8Array(3), other));
  late.forget(usual);
  expect(late.takeUpTo(mark).map(({ frame }) => frame.update.length)).toEqual([2]);
  expect(late.takeUpTo(late.mark).map(({ frame }) => frame.update.length)).toEqual([3]);
  expect(all.held).toBe(0);
});
