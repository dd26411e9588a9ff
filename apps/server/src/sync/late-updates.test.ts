/** What waits for the log to be read on is bounded by what it takes up, however small each is. */
import { memberId } from "@halflap/board/talk";
import { unsavedBytesMax } from "@halflap/wire/limits";
import { expect, test } from "vitest";
import { LateUpdates } from "./late-updates.ts";
import { Seat } from "./seat.ts";

const line = { send: () => undefined, close: () => undefined, buffered: () => 0 };
const seat = new Seat({ member: memberId("ada"), wantsSaved: true, now: () => 0, line });

function coming(update: Uint8Array) {
  const frame = { kind: "update", as: "edit", update, whole: update } as const;
  return { seat, frame, number: 1, lateSince: undefined };
}

test("the smallest edits count for what holding them costs", () => {
  const late = new LateUpdates();
  let count = 0;
  while (late.add(coming(new Uint8Array(10)))) count += 1;
  expect(count).toBeLessThan(unsavedBytesMax / 1000);
  expect(late.takeFirst(count)).toHaveLength(count);
  expect(late.add(coming(new Uint8Array(10)))).toBe(true);
});

test("an edit that waits does not keep what came with it", () => {
  const late = new LateUpdates();
  const came = new Uint8Array(60_000);
  late.add(coming(came.subarray(100, 120)));
  const [held] = late.takeFirst(1);
  expect(held?.frame.update.buffer.byteLength).toBe(20);
  expect(held?.frame.whole).toBeUndefined();
});
