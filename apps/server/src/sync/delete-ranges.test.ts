/** Deleted ranges agree with a plain set of clocks. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { addRange, addRanges, coversRange, type DeleteRanges } from "./delete-ranges.ts";

const range = fc
  .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 1, max: 8 }))
  .map(([start, length]) => ({ start, end: start + length }));

test("whatever the order and overlap, exactly the added clocks are covered", () => {
  fc.assert(
    fc.property(fc.array(range, { maxLength: 20 }), range, (added, asked) => {
      const deleted: DeleteRanges = new Map();
      const plain = new Set<number>();
      for (const one of added) {
        addRange(deleted, 7, one);
        for (let clock = one.start; clock < one.end; clock += 1) plain.add(clock);
      }
      const clocks = Array.from({ length: asked.end - asked.start }, (_, i) => asked.start + i);
      expect(coversRange(deleted, 7, asked)).toBe(clocks.every((clock) => plain.has(clock)));
    }),
  );
});

test("ranges stay sorted and apart, so that a long document's deletions stay few", () => {
  fc.assert(
    fc.property(fc.array(range, { maxLength: 30 }), (added) => {
      const deleted: DeleteRanges = new Map();
      for (const one of added) addRange(deleted, 7, one);
      const ranges = deleted.get(7) ?? [];
      for (const [i, { start, end }] of ranges.entries()) {
        expect(start).toBeLessThan(end);
        expect(end).toBeLessThan(ranges[i + 1]?.start ?? Number.POSITIVE_INFINITY);
      }
    }),
  );
});

test("many at once come to the same as one after the other", () => {
  const several = fc.array(range, { maxLength: 20 });
  fc.assert(
    fc.property(several, several, (first, then) => {
      const one: DeleteRanges = new Map();
      const other: DeleteRanges = new Map();
      for (const each of [...first, ...then]) addRange(one, 7, each);
      addRanges(other, 7, first);
      addRanges(other, 7, then);
      expect(other.get(7) ?? []).toEqual(one.get(7) ?? []);
    }),
  );
});

test("as many deletions as fit a frame, from the last to the first, are taken in one walk", () => {
  const many = Array.from({ length: 250_000 }, (_, i) => {
    const start = 2 * (250_000 - i);
    return { start, end: start + 1 };
  });
  const deleted: DeleteRanges = new Map();
  addRanges(deleted, 7, many); // one after the other this takes minutes
  expect(deleted.get(7)).toHaveLength(many.length);
});

test("another client's deletions are its own", () => {
  const deleted: DeleteRanges = new Map();
  addRange(deleted, 7, { start: 0, end: 5 });
  expect(coversRange(deleted, 8, { start: 0, end: 1 })).toBe(false);
});
