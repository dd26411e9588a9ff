/** Notes, keys, chords and grips in another key, and over a capo. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { capoAdvice } from "./capo-advice.ts";
import { shapeChord, shapeKey, soundingOfShape } from "./capo-shape.ts";
import type { Chord, NoteName } from "./chord.ts";
import { decodeGrip, type Grip, gripPitches, printGrip } from "./grip.ts";
import { whyUnplayable } from "./hand.ts";
import { fifthsOf, nameInKey, parseKey, printKey } from "./key.ts";
import { hasOpenStrings, moveGrip } from "./move-grip.ts";
import { parseChord } from "./parse-chord.ts";
import { classOf, noteName } from "./pitch.ts";
import { key } from "./test-support/as-read.ts";
import {
  inverseOf,
  transposeChord,
  transposeKey,
  transposeNote,
  transposeSymbol,
  transpositionBy,
  transpositionTo,
} from "./transpose.ts";
import { defaultSetup } from "./tuning.ts";
import { fret, pitchClass, semitones } from "./units.ts";

const known = <T>(value: T | undefined): T => {
  if (value === undefined) throw new Error("no such value");
  return value;
};
const chord = (text: string): Chord => {
  const read = parseChord(text);
  if (!read.ok) throw new Error(`no chord: ${text}`);
  return read.value;
};
const note = (text: string): NoteName => known(noteName(text));
const grip = (text: string): Grip => known(decodeGrip(text));
const moved = (symbol: string, from: string, distance: number) => {
  const read = transposeSymbol(symbol, transpositionBy(key(from), semitones(distance)));
  return read.ok ? read.value : read.error;
};
const keys = fc
  .constantFrom(..."C G D A E B F# C# F Bb Eb Ab Db Gb Cb".split(" "))
  .chain((tonic) => fc.constantFrom(tonic, `${tonic} minor`))
  .filter((text) => parseKey(text).ok)
  .map(key);
const distances = fc.integer({ min: -12, max: 12 }).map(semitones);
const notes = fc.constantFrom(..."C Db D Eb E F F# Gb G Ab A Bb B".split(" ")).map(note);

describe("T45 transposing spells as the new key wants", () => {
  test.each([
    ["F", 2, "G"],
    ["F", -2, "Eb"],
    ["F", 1, "Gb"],
    ["C", 6, "F#"],
    ["C", 1, "Db"],
    ["A minor", 1, "Bb minor"],
    ["B", 2, "Db"],
    ["E", 12, "E"],
  ])("a tune in %s goes up %i to %s", (from, distance, into) => {
    expect(printKey(transpositionBy(key(from), semitones(distance)).into)).toBe(into);
  });

  test.each([
    ["Bdim7", "F", 2, "C#dim7"],
    ["F7/C", "F", 2, "G7/D"],
    ["Bb-7", "F", -2, "Ab-7"],
    ["E♭maj7(♯11)", "Bb", 2, "Fmaj7(♯11)"],
    ["A7", "F", 1, "Bb7"],
    ["N.C.", "F", 3, "N.C."],
    ["Cb7", "Gb", 1, "C7"],
    ["Bb7", "C", 1, "B7"], // C♭7 outside D♭'s scale
    ["G#m7b5", "A", 4, "Cm7b5"],
  ])("%s in %s by %i is %s", (symbol, from, distance, result) => {
    expect(moved(symbol, from, distance)).toBe(result);
  });

  test("a quality that would run into the new root is written plainly", () => {
    // "F#" and "b5" stand apart, "G" and "b5" would not.
    expect(moved("F#b5", "D", 1)).toBe(transposedSymbol("F#b5", "D", 1));
    expect(moved("F#b5", "D", 1)).not.toBe("Gb5");
  });

  test("a text that is no chord stays an error, with its column", () => {
    expect(moved("Fq7", "F", 2)).toMatchObject({ kind: "unknown-quality", column: 1 });
  });

  test("a wrong distance between keys is a bug", () => {
    expect(() => transpositionTo(key("F"), note("G"), semitones(3))).toThrow("is not G");
    expect(transpositionTo(key("F"), note("G"), semitones(-10)).into.tonic).toBe("G");
  });

  test("every note of a key moves to the right pitch, and there are seven signs at most", () => {
    fc.assert(
      fc.property(keys, distances, notes, (from, distance, name) => {
        const by = transpositionBy(from, distance);
        const there = transposeNote(name, by);
        return (
          classOf(there) === pitchClass(classOf(name) + distance) &&
          there.length <= 2 &&
          Math.abs(fifthsOf(by.into)) <= 7 &&
          classOf(by.into.tonic) === pitchClass(classOf(from.tonic) + distance)
        );
      }),
    );
  });

  test("up and down again a key and the notes of its scale are spelled as before", () => {
    const scales = { major: [0, 2, 4, 5, 7, 9, 11], minor: [0, 2, 3, 5, 7, 8, 10] };
    const numbers = fc.integer({ min: 0, max: 6 });
    fc.assert(
      fc.property(keys, distances, numbers, (from, distance, number) => {
        const by = transpositionBy(from, distance);
        const step = known(scales[from.mode][number]);
        const name = nameInKey(pitchClass(classOf(from.tonic) + step), from);
        const back = transposeNote(transposeNote(name, by), inverseOf(by));
        return (
          transposeKey(transposeKey(from, by), inverseOf(by)).tonic === from.tonic && back === name
        );
      }),
    );
  });
});

/** The canonical symbol of a chord moved, by its tones. */
function transposedSymbol(symbol: string, from: string, distance: number): string {
  return transposeChord(chord(symbol), transpositionBy(key(from), semitones(distance))).symbol;
}

describe("T46 shape names and sounding names", () => {
  test.each([
    ["F7", "F", 3, "D7"],
    ["F7/C", "F", 3, "D7/A"],
    ["Bb", "Bb", 1, "A"],
    ["Gm7", "F", 3, "Em7"],
    ["F#m", "E", 2, "Em"],
    ["C", "C", 0, "C"],
  ])("%s in %s over capo %i is held as %s, which sounds so", (symbol, tune, capo, shape) => {
    const held = shapeChord(chord(symbol), key(tune), fret(capo));
    expect(held.symbol).toBe(shape);
    expect(soundingOfShape(held, key(tune), fret(capo)).symbol).toBe(symbol);
  });

  test("the hand's key lies as far below as the capo lies up", () => {
    expect(printKey(shapeKey(key("F"), fret(3)))).toBe("D");
    expect(printKey(shapeKey(key("F# minor"), fret(2)))).toBe("E minor");
  });
});

describe("T47 grips move along the neck, or have a replacement", () => {
  const move = (text: string, by: number, symbol: string | undefined, setup = defaultSetup) =>
    moveGrip(grip(text), setup, semitones(by), symbol ? chord(symbol) : undefined, true);

  test.each([
    ["x-x-3-2-4-x", 2, "G7", "x-x-5-4-6-x"],
    ["x-x-3-2-4-x", -2, "Eb7", "x-x-1-0-2-x"],
    ["x-x-2-0-2-x", 3, "C7", "x-x-5-3-5-x"], // its open string is stopped now
    ["0-2-2-1-0-0", 1, "F", "1-3-3-2-1-1"], // an open chord becomes a barre
  ])("%s by %i for %s becomes %s", (text, by, symbol, result) => {
    const there = move(text, by, symbol);
    expect(there.kind === "moved" && [printGrip(there.grip), there.octave]).toEqual([result, 0]);
  });

  test("what leaves the neck goes an octave beside only where no chord says what to play", () => {
    const far = move("x-x-3-2-4-x", -5, undefined);
    expect(far.kind === "moved" && [printGrip(far.grip), far.octave]).toEqual(["x-x-10-9-11-x", 1]);
    const near = move("x-x-x-12-15-x", 10, undefined);
    expect(near.kind === "moved" && [printGrip(near.grip), near.octave]).toEqual([
      "x-x-x-10-13-x",
      -1,
    ]);
    expect(move("x-x-3-2-4-x", -5, "C7").kind).toBe("replaced");
  });

  test("an open chord that can't go down is replaced by grips in its register", () => {
    const there = move("x-3-2-0-1-0", -1, "B");
    if (there.kind !== "replaced") throw new Error("it was to be replaced");
    expect(there.choices.length).toBeGreaterThan(1);
    for (const choice of there.choices) {
      const pitches = gripPitches(choice, defaultSetup);
      expect(pitches.every((pitch) => [11, 3, 6].includes(pitch % 12))).toBe(true);
      expect(Math.abs((pitches[0] ?? 0) - 47)).toBeLessThan(12);
    }
  });

  test("a small grip is replaced by one of as many strings", () => {
    const there = move("x-x-3-1-3-x", -2, "Ab7");
    if (there.kind !== "replaced") throw new Error("it was to be replaced");
    const counts = there.choices.map((choice) => gripPitches(choice, defaultSetup).length);
    expect(new Set(counts)).toEqual(new Set([3]));
  });

  test("without a chord there is nothing to put in its place", () => {
    expect(move("x-3-2-0-1-0", -1, undefined)).toEqual({ kind: "lost" });
    expect(move("x-3-2-0-1-0", -1, "N.C.")).toEqual({ kind: "lost" });
  });

  test("over a capo, frets keep being counted as the lane counts them", () => {
    const capo = { ...defaultSetup, capo: fret(3) };
    const fromNut = { ...capo, fretsFrom: "nut" } as const;
    const one = move("x-x-0-2-1-2", 2, undefined, capo);
    const other = move("x-x-0-5-4-5", 2, undefined, fromNut);
    expect(one.kind === "moved" && printGrip(one.grip)).toBe("x-x-2-4-3-4");
    expect(other.kind === "moved" && printGrip(other.grip)).toBe("x-x-5-7-6-7");
    expect(hasOpenStrings(grip("x-x-0-5-4-5"), fromNut)).toBe(true);
    expect(hasOpenStrings(grip("x-x-3-5-4-5"), fromNut)).toBe(true);
    expect(hasOpenStrings(grip("x-x-5-7-6-7"), fromNut)).toBe(false);
  });

  test("what moves sounds the interval, or an octave beside it, and can be held", () => {
    const frets = fc.option(fc.integer({ min: 0, max: 14 }).map(fret), { nil: undefined });
    const grips = fc
      .array(frets, { minLength: 6, maxLength: 6 })
      .filter((each) => each.some((played) => played !== undefined))
      .map((each): Grip => ({ frets: each }));
    fc.assert(
      fc.property(grips, distances, (held, by) => {
        const there = moveGrip(held, defaultSetup, by, undefined, true);
        if (there.kind !== "moved") return there.kind === "lost";
        const [before, after] = [held, there.grip].map((each) => gripPitches(each, defaultSetup));
        const way = by + 12 * there.octave;
        return (
          before?.every((pitch, index) => pitch + way === after?.[index]) === true &&
          whyUnplayable(there.grip, defaultSetup) === undefined
        );
      }),
    );
  });
});

describe("T48 capo advice", () => {
  const advice = (tune: string, tonic: string) =>
    capoAdvice(
      tune.split(" ").map((symbol) => ({ chord: chord(symbol), length: 1 })),
      key(tonic),
      defaultSetup,
    );

  test("each capo once, the cheapest first", () => {
    const list = advice("Eb Ab Bb", "Eb");
    expect(list.map(({ capo }) => capo).sort()).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    const costs = list.map(({ cost }) => cost);
    expect(costs).toEqual([...costs].sort((one, other) => one - other));
    for (const { openStrings, hard, shapes } of list) {
      expect(openStrings).toBeGreaterThanOrEqual(0);
      expect(openStrings).toBeLessThanOrEqual(6);
      expect(hard).toBeGreaterThanOrEqual(0);
      expect(hard).toBeLessThanOrEqual(1);
      expect(shapes).toHaveLength(3);
    }
  });

  test("what lasts longer counts for more", () => {
    const tune = (long: number) =>
      capoAdvice(
        [
          { chord: chord("E"), length: long },
          { chord: chord("F"), length: 1 },
        ],
        key("E"),
        defaultSetup,
      );
    expect(tune(40)[0]?.capo).toBe(0);
    expect(tune(1 / 40)[0]?.capo).not.toBe(0);
  });

  test("where nobody plays a chord there is nothing to advise", () => {
    expect(advice("N.C. N.C.", "C")).toEqual([]);
  });
});
