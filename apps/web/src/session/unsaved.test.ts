/** When a change counts as stored, as a table and as laws. */
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  type Change,
  changesMax,
  decodeChanges,
  encodeChanges,
  isWithin,
  notStored,
  sentIn,
  unsent,
  withChange,
} from "./unsaved.ts";

const change = (clock: number, frame?: number): Change => ({ client: 7, clock, frame });
const anyChange = fc.record({
  client: fc.constantFrom(7, 8),
  clock: fc.nat(50),
  frame: fc.option(fc.nat(9), { nil: undefined }),
});

test("a change is stored once its frame is decided and the vector covers it", () => {
  expect(notStored([change(3, 1)], new Map([[7, 3]]), 1)).toEqual([]);
});

test("a decided frame alone does not store: it may have been refused", () => {
  expect(notStored([change(3, 1)], new Map([[7, 2]]), 1)).toHaveLength(1);
});

test("a vector alone does not store: a deletion leaves no trace in it", () => {
  expect(notStored([change(3, 2)], new Map([[7, 3]]), 1)).toHaveLength(1);
  expect(notStored([change(3)], new Map([[7, 3]]), 9)).toHaveLength(1);
});

test("another client's clock covers nothing of mine", () => {
  expect(notStored([change(3, 1)], new Map([[8, 99]]), 1)).toHaveLength(1);
});

test("a new socket carries nothing, and its first answer carries everything", () => {
  const open = unsent([change(1, 4), change(2, 5)]);
  expect(notStored(open, new Map([[7, 9]]), 9)).toHaveLength(2);
  expect(notStored(sentIn(open, 1), new Map([[7, 9]]), 1)).toEqual([]);
});

test("when the server asks again, what was sent before waits for the answer to be decided", () => {
  // Frame 2 deleted content that the server had no room for: it was decided by asking again.
  const asked = sentIn([{ client: 7, clock: 0, frame: 2 }], 3);
  expect(notStored(asked, new Map(), 2)).toHaveLength(1);
  expect(notStored(asked, new Map(), 3)).toEqual([]);
});

test("an answer that was left aside stands for nothing, and what came behind it still does", () => {
  const left = unsent([change(1, 2), change(2, 3)], 2);
  expect(left).toEqual([change(1), change(2, 3)]);
  expect(notStored(left, new Map([[7, 9]]), 3)).toEqual([change(1)]);
});

test("what is stored never comes back, however the server's answers are ordered", () => {
  fc.assert(
    fc.property(fc.array(anyChange), fc.nat(50), fc.nat(9), (changes, clock, decided) => {
      const stored = new Map([
        [7, clock],
        [8, clock],
      ]);
      const left = notStored(changes, stored, decided);
      expect(notStored(left, stored, decided)).toEqual(left);
      expect(left.every((each) => changes.some((known) => known === each))).toBe(true);
    }),
  );
});

test("what this browser remembers reads back as not yet sent", () => {
  const kept = JSON.parse(JSON.stringify(encodeChanges([change(3, 1), change(4, 2)])));
  expect(decodeChanges(kept)).toEqual([change(3), change(4)]);
});

test.each([null, {}, "x", [1], [[1]], [[1, "2"]], [[1, 2, 3]]])(
  "%j is nothing that was remembered",
  (value) => {
    expect(decodeChanges(value)).toBeUndefined();
  },
);

test("the list is bounded, and the newest change stays", () => {
  let changes: readonly Change[] = [];
  for (let clock = 1; clock <= changesMax + 5; clock += 1) {
    changes = withChange(changes, change(clock));
  }
  expect(changes).toHaveLength(changesMax);
  expect(changes.at(-1)).toEqual(change(changesMax + 5));
});

test("a vector is within another that counts at least as much of every client", () => {
  expect(isWithin(new Map([[1, 2]]), new Map([[1, 2]]))).toBe(true);
  expect(isWithin(new Map([[1, 3]]), new Map([[1, 2]]))).toBe(false);
  expect(isWithin(new Map([[2, 1]]), new Map([[1, 2]]))).toBe(false);
  expect(isWithin(new Map(), new Map())).toBe(true);
});
