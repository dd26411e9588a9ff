/**
 * W6, the check of presence: a socket speaks for one client id and its own member, and for nobody
 * else.
 */
import * as decoding from "lib0/decoding";
import { expect, test } from "vitest";
import { hear, type Speaker } from "./awareness-gate.ts";
import { awarenessFrame, type PresenceEntry } from "./frames.ts";

const ada = { member: "ada", name: "Ada" };

function speaker(more: Partial<Speaker> = {}): Speaker {
  return { ...ada, client: undefined, clock: undefined, mayTake: () => true, ...more };
}

function entry(client: number, clock: number, state: unknown): PresenceEntry {
  return { client, clock, state: JSON.stringify(state) };
}

function bytesOf(entries: readonly PresenceEntry[]): Uint8Array {
  const decoder = decoding.createDecoder(awarenessFrame(entries));
  decoding.readVarUint(decoder);
  return decoding.readVarUint8Array(decoder);
}

function nested(depth: number): unknown {
  return depth === 0 ? 1 : { in: nested(depth - 1) };
}

test("the first state of its own names the socket's client id and is passed on", () => {
  const own = entry(7, 0, ada);
  expect(hear(bytesOf([own]), speaker())).toEqual({ client: 7, entry: own });
});

test("the stock client's empty first state names the id and is not passed on", () => {
  const heard = hear(bytesOf([entry(7, 0, {})]), speaker());
  expect(heard).toEqual({ client: 7, entry: undefined });
});

test("an id that belongs to another member is not taken", () => {
  const heard = hear(bytesOf([entry(7, 0, ada)]), speaker({ mayTake: () => false }));
  expect(heard).toEqual({ client: undefined, entry: undefined });
});

test("entries of others are left out, one's own among them is heard", () => {
  const own = entry(7, 3, ada);
  const others = [entry(8, 1, { member: "ben", name: "Ben" }), entry(9, 1, ada)];
  expect(hear(bytesOf([...others, own]), speaker({ client: 7, clock: 2 })).entry).toEqual(own);
  expect(hear(bytesOf(others), speaker({ client: 7, clock: 2 })).entry).toBeUndefined();
});

test.each([
  ["another member", { member: "ben", name: "Ada" }],
  ["another name", { member: "ada", name: "Ben" }],
  ["no member", { name: "Ada" }],
  ["a text", "ada"],
  ["more than 4 KiB", { ...ada, more: "x".repeat(4096) }],
  ["seven levels", { ...ada, more: nested(6) }],
])("a state with %s is not passed on", (_what, state) => {
  const heard = hear(bytesOf([entry(7, 3, state)]), speaker({ client: 7, clock: 2 }));
  expect(heard.entry).toBeUndefined();
});

test("six levels pass", () => {
  const deep = entry(7, 3, { ...ada, more: nested(5) });
  expect(hear(bytesOf([deep]), speaker({ client: 7, clock: 2 })).entry).toEqual(deep);
});

test.each([
  ["back", 1],
  ["ahead by more than a step may", 2 + 100_001],
  ["to the end of all numbers", Number.MAX_SAFE_INTEGER],
])("a clock that jumps %s is not passed on", (_where, clock) => {
  const heard = hear(bytesOf([entry(7, clock, ada)]), speaker({ client: 7, clock: 2 }));
  expect(heard.entry).toBeUndefined();
});

test("taking one's own state back passes", () => {
  const gone = entry(7, 3, null);
  expect(hear(bytesOf([gone]), speaker({ client: 7, clock: 2 })).entry).toEqual(gone);
});

test("another's removal never names the socket's id", () => {
  expect(hear(bytesOf([entry(8, 3, null)]), speaker()).client).toBeUndefined();
});

test("broken bytes say nothing", () => {
  const whole = bytesOf([entry(7, 3, ada)]);
  for (let end = 0; end < whole.length; end += 1) {
    const heard = hear(whole.slice(0, end), speaker());
    expect(heard).toEqual({ client: undefined, entry: undefined });
  }
});
