/** The quick total of a motion against the pairing of voices that it stands for. */
import { threadsBetween } from "@halflap/theory/threads";
import { midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { expect, test } from "vitest";
import { motionTotal } from "./motion-total.ts";

test("nothing moves from or to silence", () => {
  expect(motionTotal([], [60])).toBe(0);
  expect(motionTotal([60, 64], [])).toBe(0);
});

test("it is the total of the threads, for any two lists of pitches", () => {
  const pitches = fc
    .array(fc.integer({ min: 30, max: 90 }).map(midiNote), { maxLength: 6 })
    .map((list) => [...list].sort((a, b) => a - b));
  fc.assert(
    fc.property(pitches, pitches, (from, to) => {
      expect(motionTotal(from, to)).toBe(threadsBetween(from, to).total);
    }),
    { numRuns: 3000 },
  );
});
