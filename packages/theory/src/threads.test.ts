/** Voice threads take the least motion there is. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeGrip } from "./grip.ts";
import { directionOf, handShift, leapsOf, threadsBetween } from "./threads.ts";
import { defaultSetup } from "./tuning.ts";
import { type MidiNote, midiNote } from "./units.ts";

const pitches = (...values: number[]): MidiNote[] => values.map(midiNote);

/** The least total motion over every way to give each of the many one of the few, all taken. */
function leastByTrying(many: readonly number[], few: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  const choose = (index: number, cost: number, taken: ReadonlySet<number>): void => {
    const pitch = many[index];
    if (pitch === undefined) {
      if (taken.size === few.length) least = Math.min(least, cost);
      return;
    }
    few.forEach((partner, place) => {
      const isUsedUp = many.length === few.length && taken.has(place);
      if (!isUsedUp)
        choose(index + 1, cost + Math.abs(pitch - partner), new Set([...taken, place]));
    });
  };
  choose(0, 0, new Set());
  return least;
}

describe("T15 the pairing has the smallest total motion", () => {
  const chord = fc.array(fc.integer({ min: 40, max: 84 }).map(midiNote), {
    minLength: 1,
    maxLength: 5,
  });

  test("no pairing of up to five voices moves less", () => {
    fc.assert(
      fc.property(chord, chord, (from, to) => {
        const [many, few] = from.length >= to.length ? [from, to] : [to, from];
        return threadsBetween(from, to).total === leastByTrying(many, few);
      }),
      { numRuns: 300 },
    );
  });

  test("every voice takes part, and the threads add up to the total", () => {
    fc.assert(
      fc.property(chord, chord, (from, to) => {
        const { pairs, total, held, largest } = threadsBetween(from, to);
        const sizes = pairs.map((pair) => Math.abs(pair.motion));
        return (
          pairs.length === Math.max(from.length, to.length) &&
          from.every((pitch) => pairs.some((pair) => pair.from === pitch)) &&
          to.every((pitch) => pairs.some((pair) => pair.to === pitch)) &&
          pairs.every((pair) => pair.motion === pair.to - pair.from) &&
          sizes.reduce((sum, size) => sum + size, 0) === total &&
          sizes.filter((size) => size === 0).length === held &&
          Math.max(...sizes) === largest
        );
      }),
    );
  });

  test("the way back is as long, and the order of the notes says nothing", () => {
    fc.assert(
      fc.property(chord, chord, (from, to) => {
        const total = threadsBetween(from, to).total;
        return (
          threadsBetween(to, from).total === total &&
          threadsBetween([...from].reverse(), to).total === total
        );
      }),
    );
  });

  test("moving both sides up together changes nothing", () => {
    fc.assert(
      fc.property(chord, chord, fc.integer({ min: 1, max: 24 }), (from, to, up) => {
        const raised = (notes: readonly MidiNote[]) => notes.map((note) => midiNote(note + up));
        return threadsBetween(raised(from), raised(to)).total === threadsBetween(from, to).total;
      }),
    );
  });

  test("nothing moves exactly when the same pitches sound", () => {
    fc.assert(
      fc.property(chord, chord, (from, to) => {
        const isSame = [...new Set(from)].sort().join() === [...new Set(to)].sort().join();
        const isSameCount = from.length === to.length;
        const total = threadsBetween(from, to).total;
        return threadsBetween(from, from).total === 0 && (total > 0 || isSame || !isSameCount);
      }),
    );
  });

  test("a voice splits where there is one more, and two merge where there is one less", () => {
    expect(threadsBetween(pitches(60, 67), pitches(59, 61, 67)).pairs).toEqual([
      { from: 60, to: 59, motion: -1 },
      { from: 60, to: 61, motion: 1 },
      { from: 67, to: 67, motion: 0 },
    ]);
    expect(threadsBetween(pitches(59, 61, 67), pitches(60, 67)).total).toBe(2);
  });

  test("nothing moves from or to silence", () => {
    expect(threadsBetween([], pitches(60))).toEqual({ total: 0, held: 0, largest: 0, pairs: [] });
  });
});

test("T16 the hand shifts by the way of its first finger", () => {
  const shift = (from: string, to: string) => {
    const [start, end] = [decodeGrip(from), decodeGrip(to)];
    return start && end ? handShift(start, end, defaultSetup) : undefined;
  };
  expect(shift("x-x-3-2-4-x", "x-x-3-1-3-x")).toBeCloseTo(34.33, 2);
  expect(shift("x-x-3-2-4-x", "x-x-2-0-2-x")).toBe(0);
  expect(shift("x-x-3-2-4-x", "x-x-0-0-0-x")).toBe(0);
});

test("T15 a leap is more than a whole step; the voices go up, down, both ways or nowhere", () => {
  const threads = threadsBetween(pitches(53, 57, 63), pitches(53, 60, 62));
  expect(leapsOf(threads)).toEqual([{ from: 57, to: 60, motion: 3 }]);
  expect(directionOf(threads)).toBe("both");
  expect(directionOf(threadsBetween(pitches(60, 64), pitches(60, 65)))).toBe("up");
  expect(directionOf(threadsBetween(pitches(60, 64), pitches(59, 64)))).toBe("down");
  expect(directionOf(threadsBetween(pitches(60, 64), pitches(60, 64)))).toBe("nowhere");
  expect(leapsOf(threadsBetween(pitches(60), pitches(62)))).toEqual([]);
});
