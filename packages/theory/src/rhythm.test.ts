/** Rhythms, what two of them share, and the laws of their measures. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { euclideanSteps, evennessOf, isMaximallyEven, variabilityOf } from "./evenness.ts";
import {
  coverageOf,
  intervalsOf,
  overlapOf,
  type Rhythm,
  rhythmOf,
  rhythmOfSteps,
  together,
} from "./rhythm.ts";
import { metricalTree, noteToBeatDistance, offBeatnessOf, syncopationOf } from "./syncopation.ts";
import { ticks } from "./units.ts";

const eighth = ticks(24);
const sixteenth = ticks(12);
/** Strokes in eighths: "D" or "U" begins one. */
const strum = (text: string): Rhythm =>
  rhythmOfSteps(
    text.split("").map((stroke) => stroke !== "."),
    eighth,
  );
const steps = fc.array(fc.boolean(), { minLength: 16, maxLength: 16 });
const rhythms = steps.map((struck) => rhythmOfSteps(struck, sixteenth));
const commonTime = metricalTree({ beats: 4, unit: 4 });

describe("T40 rhythms are sets of onsets", () => {
  test("in order, each once, and none outside", () => {
    const onsets = [96, 0, 96].map(ticks);
    expect(rhythmOf(ticks(192), onsets).onsets).toEqual([0, 96]);
    expect(() => rhythmOf(ticks(96), onsets)).toThrow("outside");
    expect(() => rhythmOf(ticks(0), [])).toThrow("length");
  });

  test("intervals go round and fill the cycle", () => {
    expect(intervalsOf(strum(".D..U..."))).toEqual([72, 120]);
    fc.assert(
      fc.property(rhythms, (rhythm) => {
        const sum = intervalsOf(rhythm).reduce((total, each) => total + each, 0);
        return sum === (rhythm.onsets.length === 0 ? 0 : rhythm.cycle);
      }),
    );
  });

  test.each([
    ["D.DU.UDU", "D.DU.UDU", 1],
    ["D.D.D.D.", ".U.U.U.U", 0],
    ["D...D...", "..D..UD.", 0],
    ["D.D.D.D.", "D...D...", 0.5],
  ])("%s and %s overlap by %f", (one, other, overlap) => {
    expect(overlapOf(strum(one), strum(other))).toBe(overlap);
  });

  test("overlap needs a stroke, and one length", () => {
    expect(overlapOf(strum("........"), strum("........"))).toBeUndefined();
    expect(() => overlapOf(strum("D..."), strum("D......."))).toThrow("one length");
  });

  test("overlap is the same from both sides, and 1 for oneself", () => {
    fc.assert(
      fc.property(rhythms, rhythms, (one, other) => {
        const overlap = overlapOf(one, other);
        const own = overlapOf(one, one);
        return overlap === overlapOf(other, one) && own === (one.onsets.length ? 1 : undefined);
      }),
    );
  });

  test("interlocking strokes cover every eighth between them", () => {
    expect(coverageOf(together(strum("D.D.D.D."), strum(".U.U.U.U")), eighth)).toBe(1);
    expect(coverageOf(strum("D...D..."), eighth)).toBe(0.25);
    expect(coverageOf(strum("........"), eighth)).toBe(0);
  });
});

describe("T41 syncopation", () => {
  test("a meter divides into its beats, then by twos", () => {
    expect(metricalTree({ beats: 4, unit: 4 })).toEqual({ cycle: 192, divisions: [2, 2, 2, 2] });
    expect(metricalTree({ beats: 6, unit: 8 })).toEqual({ cycle: 144, divisions: [2, 3, 2] });
    expect(metricalTree({ beats: 3, unit: 4 })).toEqual({ cycle: 144, divisions: [3, 2, 2] });
    expect(metricalTree({ beats: 5, unit: 4 })).toEqual({ cycle: 240, divisions: [5, 2, 2] });
  });

  test.each([
    ["D.D.D.D.", 0],
    ["DUDUDUDU", 0],
    ["D.DU.UDU", 2], // the and of 2 into the third beat: level 3 against level 1
    [".U.U.U.U", 7], // 3 over the bar's beginning, then 1, 2 and 1 over the beats
    ["..D...D.", 3], // beat 4 into the bar's beginning, beat 2 into the third
  ])("%s is syncopated by %i", (pattern, value) => {
    expect(syncopationOf(strum(pattern), commonTime)).toBe(value);
  });

  test("nobody, and a triplet on a tree of twos, have no syncopation to tell", () => {
    expect(syncopationOf(strum("........"), commonTime)).toBeUndefined();
    expect(syncopationOf(rhythmOf(ticks(192), [ticks(16)]), commonTime)).toBeUndefined();
    expect(noteToBeatDistance(strum("........"), ticks(48))).toBeUndefined();
    expect(offBeatnessOf(strum("D......."), ticks(16))).toBe(0);
    expect(offBeatnessOf(strum(".D......"), ticks(16))).toBeUndefined();
  });

  test("it is never negative, and 0 when every sixteenth is struck", () => {
    fc.assert(fc.property(rhythms, (rhythm) => (syncopationOf(rhythm, commonTime) ?? 0) >= 0));
    const all = rhythmOfSteps(
      Array.from({ length: 16 }, () => true),
      sixteenth,
    );
    expect(syncopationOf(all, commonTime)).toBe(0);
  });

  test("strokes on the beat lie nowhere from it", () => {
    expect(noteToBeatDistance(strum("D.D.D.D."), ticks(48))).toBe(0);
    expect(noteToBeatDistance(strum(".U.U.U.U"), ticks(48))).toBe(4);
  });
});

describe("T42 evenness", () => {
  test("equal intervals are perfectly even and do not vary", () => {
    expect(evennessOf(strum("D.D.D.D."))).toBeCloseTo(1, 12);
    expect(variabilityOf(strum("D.D.D.D."))).toBe(0);
  });

  test("one onset is neither even nor uneven", () => {
    expect(evennessOf(strum("D......."))).toBeUndefined();
    expect(variabilityOf(strum("D......."))).toBeUndefined();
  });

  test("nothing is more even than equal intervals, wherever it begins", () => {
    fc.assert(
      fc.property(steps, fc.integer({ min: 0, max: 15 }), (struck, turn) => {
        const turned = [...struck.slice(turn), ...struck.slice(0, turn)];
        const evenness = evennessOf(rhythmOfSteps(struck, sixteenth)) ?? 1;
        const again = evennessOf(rhythmOfSteps(turned, sixteenth)) ?? 1;
        return evenness <= 1 + 1e-12 && Math.abs(evenness - again) < 1e-9;
      }),
    );
  });

  test("Euclidean rhythms have their onsets, begin with one, and none is more even", () => {
    const counts = fc
      .integer({ min: 1, max: 16 })
      .chain((size) => fc.tuple(fc.integer({ min: 1, max: size }), fc.constant(size)));
    fc.assert(
      fc.property(counts, ([onsets, size]) => {
        const made = euclideanSteps(onsets, size);
        return (
          made.length === size &&
          made[0] === true &&
          made.filter((each) => each).length === onsets &&
          isMaximallyEven(rhythmOfSteps(made, sixteenth), sixteenth)
        );
      }),
    );
    expect(() => euclideanSteps(5, 4)).toThrow("do not fit");
  });

  test("a rhythm off the grid is not maximally even on it", () => {
    expect(isMaximallyEven(strum("DU......"), ticks(48))).toBe(false);
  });
});
