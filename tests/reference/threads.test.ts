/** Voice threads against every pairing there is, and their laws as a distance. */
import { movingLines } from "@halflap/theory/moving-lines";
import { threadsBetween } from "@halflap/theory/threads";
import { midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";

const voicesMax = 6;
const voicing = fc.array(fc.integer({ min: 40, max: 88 }).map(midiNote), {
  minLength: 1,
  maxLength: voicesMax,
});
const total = (from: readonly number[], to: readonly number[]): number =>
  threadsBetween(from.map(midiNote), to.map(midiNote)).total;

/** Of all maps from the larger to the whole of the smaller side, the smallest sum of distances. */
function leastOfAll(one: readonly number[], other: readonly number[]): number {
  const [many, few] = one.length >= other.length ? [one, other] : [other, one];
  const everyOne = (1 << few.length) - 1;
  let least = Number.POSITIVE_INFINITY;
  for (let map = 0; map < few.length ** many.length; map++) {
    let [rest, taken, sum] = [map, 0, 0];
    for (const pitch of many) {
      const partner = rest % few.length;
      rest = (rest - partner) / few.length;
      taken |= 1 << partner;
      sum += Math.abs(pitch - (few[partner] ?? pitch));
    }
    if (taken === everyOne) least = Math.min(least, sum);
  }
  return least;
}

// Tymoczko, The Geometry of Musical Chords, Science 313, 2006: voice leadings, taxicab size.
describe("T15 the pairing of least motion, for up to six voices", () => {
  test("no map of one side onto the other is smaller", () => {
    fc.assert(
      fc.property(voicing, voicing, (from, to) => total(from, to) === leastOfAll(from, to)),
      { numRuns: 250 },
    );
  });

  test("each pair of sizes from one to six was tried", () => {
    const chord = [43, 50, 55, 59, 66, 70];
    const other = [41, 53, 54, 60, 61, 76];
    for (let size = 1; size <= voicesMax; size++) {
      for (let next = 1; next <= voicesMax; next++) {
        const [from, to] = [chord.slice(0, size), other.slice(voicesMax - next)];
        expect(total(from, to), `${size} to ${next} voices`).toBe(leastOfAll(from, to));
      }
    }
  });

  test("zero: it is 0 exactly where the same pitches sound, however often each", () => {
    fc.assert(
      fc.property(voicing, voicing, (from, to) => {
        const isSame = [...new Set(from)].sort().join() === [...new Set(to)].sort().join();
        const isZero = total(from, to) === 0;
        const isOneSize = from.length === to.length;
        const isSameBag = [...from].sort().join() === [...to].sort().join();
        return total(from, from) === 0 && (isOneSize ? isZero === isSameBag : !isZero || isSame);
      }),
    );
    expect(total([60, 60, 72], [60, 72])).toBe(0);
  });

  test("symmetry: there and back are as far", () => {
    fc.assert(fc.property(voicing, voicing, (from, to) => total(from, to) === total(to, from)));
  });

  test("triangle: among voicings of one size no detour is shorter", () => {
    const three = fc.integer({ min: 1, max: voicesMax }).chain((size) => {
      const chord = fc.array(fc.integer({ min: 40, max: 88 }), {
        minLength: size,
        maxLength: size,
      });
      return fc.tuple(chord, chord, chord);
    });
    fc.assert(
      fc.property(three, ([a, b, c]) => total(a, c) <= total(a, b) + total(b, c)),
      { numRuns: 500 },
    );
  });

  // Doublings cost nothing to merge and nothing to split, but are not moved for nothing.
  test("triangle: through a voicing of another size a detour can be shorter", () => {
    const [doubledLow, plain, doubledHigh] = [
      [60, 60, 72],
      [60, 72],
      [60, 72, 72],
    ];
    expect(total(doubledLow, plain) + total(plain, doubledHigh)).toBe(0);
    expect(total(doubledLow, doubledHigh)).toBe(12);
  });
});

// Line cliché: common practice, no source. D minor with its octave falling: D C♯ C B.
test("T44 a minor chord’s falling octave is a chromatic descent between its outer voices", () => {
  const grips = [62, 61, 60, 59].map((inner) => [50, 57, inner, 65].map(midiNote));
  const [line, ...others] = movingLines(grips);
  expect(others).toEqual([]);
  expect(line).toMatchObject({ voice: "inner", kind: "chromatic", direction: "down" });
  expect(line?.notes).toEqual([62, 61, 60, 59]);
});
