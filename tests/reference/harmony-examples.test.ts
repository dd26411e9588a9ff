/** Voice leading worked out in the literature, with its source beside each example. */
import { chord } from "@halflap/theory/test-support/as-read";
import { type Threads, threadsBetween } from "@halflap/theory/threads";
import { midiNote } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

const roots = "C Db D Eb E F Gb G Ab A Bb B".split(" ");
const classes = (text: string) => chord(text).tones.map((tone) => tone.pitchClass as number);
const degreeOf = (text: string, pitchClass: number) =>
  chord(text).tones.find((tone) => tone.pitchClass === ((pitchClass % 12) + 12) % 12)?.degree;

/** Each way to lay pitch classes within an octave and a half around middle C. */
function placings(pitchClasses: readonly number[]): readonly number[][] {
  return pitchClasses.reduce<number[][]>(
    (begun, pitchClass) =>
      begun.flatMap((pitches) => [48, 60, 72].map((low) => [...pitches, low + pitchClass])),
    [[]],
  );
}

/** The threads of least motion from a chord around middle C to any placing of another. */
function leastThreads(from: string, to: string): Threads {
  const start = classes(from).map((pitchClass) => midiNote(60 + pitchClass));
  const all = placings(classes(to)).map((pitches) => threadsBetween(start, pitches.map(midiNote)));
  return all.reduce((least, threads) => (threads.total < least.total ? threads : least));
}

// Guide tones in ii-V-I: common practice (Levine, The Jazz Theory Book, 1995, from memory).
describe("guide tones of ii V I", () => {
  test("in minor they go to third and sixth by a whole step each", () => {
    const tones = (symbol: string) =>
      chord(symbol)
        .guideTones.filter((tone) => /[367]$/.test(tone.degree))
        .map((tone) => tone.name);
    expect(tones("Dm7b5")).toEqual(["F", "C"]);
    expect(tones("G7")).toEqual(["B", "F"]);
    expect(tones("Cm6")).toEqual(["Eb", "A"]);
  });

  test("in major sevenths fall a semitone to the next third, thirds hold as sevenths", () => {
    for (const tonic of roots) {
      const [home] = classes(`${tonic}maj7`);
      const root = (steps: number) => roots[((home ?? 0) + steps) % 12] ?? "C";
      const tones = (symbol: string) =>
        chord(symbol).guideTones.map((tone) => tone.pitchClass as number);
      const [two, five, one] = [tones(`${root(2)}m7`), tones(`${root(7)}7`), tones(`${tonic}maj7`)];
      expect(two[0]).toBe(five[1]);
      expect(((two[1] ?? 0) - (five[0] ?? 0) + 12) % 12).toBe(1);
      expect(five[0]).toBe(one[1]);
      expect(((five[1] ?? 0) - (one[0] ?? 0) + 12) % 12).toBe(1);
    }
  });
});

// Wikibooks, Music Theory, substitute dominants; the tritone is its own inversion.
describe("tritone substitutes", () => {
  test("a dominant seventh shares third and seventh with the one six semitones away", () => {
    for (const [index, root] of roots.entries()) {
      const other = `${roots[(index + 6) % 12]}7`;
      const guides = chord(`${root}7`).guideTones.map((tone) => tone.pitchClass as number);
      expect(guides.map((guide) => degreeOf(other, guide))).toEqual(["b7", "3"]);
    }
  });

  test("where the substitute goes home, all voices but the common tone step down or hold", () => {
    const threads = leastThreads("Db7", "Cmaj7");
    expect(threads.pairs.every(({ motion }) => Math.abs(motion) <= 1)).toBe(true);
  });
});

// Tymoczko, The Geometry of Musical Chords, Science 313, 2006: a chord that divides the octave
// almost evenly has short ways to its own transpositions. Sizes counted over every placing.
describe("dominant sevenths at each distance of their roots", () => {
  test.each([
    [0, 0, 4],
    [1, 4, 0],
    [2, 4, 1],
    [3, 2, 2],
    [4, 4, 1],
    [5, 4, 1],
    [6, 2, 2],
    [7, 4, 1],
    [8, 4, 1],
    [9, 2, 2],
    [10, 4, 1],
    [11, 4, 0],
  ])("%i semitones: they move %i in all and have %i tones in common", (distance, total, common) => {
    for (const [index, root] of roots.entries()) {
      const other = `${roots[(index + distance) % 12]}7`;
      expect(leastThreads(`${root}7`, other).total).toBe(total);
      const shared = classes(other).filter((tone) => classes(`${root}7`).includes(tone));
      expect(shared).toHaveLength(common);
    }
  });
});

// Cohn, Neo-Riemannian Operations, Parsimonious Trichords, and Their Tonnetz Representations, 1997:
// P and L move one voice by a semitone, R one voice by a whole step; two voices are held.
describe("parsimonious moves of triads", () => {
  const moves = (name: "P" | "L" | "R", root: number): readonly [string, string] => {
    const major = roots[root] ?? "";
    const minor = roots[(root + { P: 0, L: 4, R: 9 }[name]) % 12];
    return [major, `${minor}m`];
  };

  test.each([
    ["P", 1],
    ["L", 1],
    ["R", 2],
  ] as const)("%s moves one voice by %i and holds two, from every triad and back", (name, size) => {
    for (const root of roots.keys()) {
      const [major, minor] = moves(name, root);
      for (const threads of [leastThreads(major, minor), leastThreads(minor, major)]) {
        expect(threads.total).toBe(size);
        expect(threads.held).toBe(2);
        expect(threads.largest).toBe(size);
      }
    }
  });

  // Cohn, Maximally Smooth Cycles, Hexatonic Systems, and the Analysis of Late-Romantic Triadic
  // Progressions, 1996: P and L in turn go through six triads and come home.
  test("six triads by P and L in turn come home, one semitone in one voice at a time", () => {
    const cycle = "C Cm Ab G#m E Em C".split(" ");
    const sizes = cycle.slice(1).map((next, index) => leastThreads(cycle[index] ?? "", next).total);
    expect(sizes).toEqual([1, 1, 1, 1, 1, 1]);
  });
});

// Douthett & Steinbach, Parsimonious Graphs, 1998: lowering any tone of a diminished seventh gives
// a dominant seventh, raising any gives a half-diminished one; B♭7 to B°7 is the first of these.
test("a diminished seventh is a semitone from four dominants and four half-diminished", () => {
  const near = (quality: string) =>
    roots.filter((root) => leastThreads("Bdim7", `${root}${quality}`).total === 1);
  expect(near("7")).toEqual(["Db", "E", "G", "Bb"]);
  expect(near("m7b5")).toEqual(["D", "F", "Ab", "B"]);
});
