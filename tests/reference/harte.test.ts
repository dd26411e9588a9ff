/** The syntax of Harte, Sandler, Abdallah and Gómez (ISMIR 2005, pp. 66-71), read and written. */
import type { Chord } from "@halflap/theory/chord";
import { parseHarte, printHarte } from "@halflap/theory/harte";
import { parseChord } from "@halflap/theory/parse-chord";
import fc from "fast-check";
import { describe, expect, test } from "vitest";

const read = (text: string): Chord => {
  const chord = parseHarte(text);
  if (!chord.ok) throw new Error(`no Harte chord: ${text}`);
  return chord.value;
};
const symbol = (text: string): Chord => {
  const chord = parseChord(text);
  if (!chord.ok) throw new Error(`no chord: ${text}`);
  return chord.value;
};
const degrees = (chord: Chord) =>
  chord.kind === "chord" ? chord.tones.map((tone) => tone.degree as string) : [];
const notes = "C C# Db D D# Eb E F F# Gb G G# Ab A A# Bb B Cb Fb E# B# Abb F##".split(" ");

// The paper's table of shorthands; the root is implied. Known to us through annotation guides that
// quote it.
describe("the shorthands stand for their degrees", () => {
  test.each([
    ["maj", "3 5"],
    ["min", "b3 5"],
    ["dim", "b3 b5"],
    ["aug", "3 #5"],
    ["maj7", "3 5 7"],
    ["min7", "b3 5 b7"],
    ["7", "3 5 b7"],
    ["dim7", "b3 b5 bb7"],
    ["hdim7", "b3 b5 b7"],
    ["minmaj7", "b3 5 7"],
    ["maj6", "3 5 6"],
    ["min6", "b3 5 6"],
    ["9", "3 5 b7 9"],
    ["maj9", "3 5 7 9"],
    ["min9", "b3 5 b7 9"],
    ["sus4", "4 5"],
  ])("%s: %s", (shorthand, expected) => {
    for (const root of notes) {
      const chord = read(`${root}:${shorthand}`);
      expect(degrees(chord).join(" ")).toBe(`1 ${expected}`);
      expect(chord).toEqual(read(`${root}:(${expected.replaceAll(" ", ",")})`));
      expect(printHarte(chord)).toBe(`${root}:${shorthand}`);
    }
  });

  test("a bare root is major, N is nobody's chord, * leaves a degree out", () => {
    expect(read("Bb")).toEqual(symbol("Bb"));
    expect(read("N")).toEqual(symbol("N.C."));
    expect(read("C:7(*5)")).toEqual(symbol("C7no5"));
    expect(read("F:7/5")).toEqual(symbol("F7/C"));
    expect(read("G:7(b9)")).toEqual(symbol("G7b9"));
  });
});

describe("writing and reading undo each other", () => {
  const qualities = [
    "|m|7|m7|maj7|6|m6|69|m69|9|m9|maj9|11|m11|13|m13|maj13|sus2|sus4|7sus4|9sus4|13sus4|dim|dim7",
    "m7b5|m9b5|aug|7#5|maj7#5|m(maj7)|m(maj9)|dim(maj7)|5|add9|madd9|add11|(b5)|(#11)|m(b6)|7b5",
    "7b9|7#9|7#11|7b13|7b5b9|7#5#9|7b9#11|7b9b13|13b9|13#11|9#11|maj7#11|alt|7no3|7no5|no5|67",
    "sus2sus4|7sus2|maj7sus4|6no3|9no5|m7no5|7(b6)|7(11)|maj7(13)|m7(13)",
  ].flatMap((line) => line.split("|"));
  const spelled = fc.constantFrom(...notes);

  test("for every symbol on any root over any bass", () => {
    fc.assert(
      fc.property(spelled, fc.constantFrom(...qualities), spelled, (root, quality, bass) => {
        for (const text of [root + quality, `${root}${quality}/${bass}`]) {
          const chord = symbol(text);
          expect(read(printHarte(chord)), text).toEqual(chord);
        }
      }),
      { numRuns: 5_000 },
    );
  });

  test("for every symbol on C, and what is written is in the paper's own syntax", () => {
    const own = /^C:(?:minmaj7|hdim7|dim7|maj7|min7|maj6|min6|maj9|min9|sus4|maj|min|dim|aug|7|9)?/;
    for (const quality of qualities) {
      const text = printHarte(symbol(`C${quality}`));
      expect(text.replace(own, ""), text).toMatch(/^$|^\((?:\*?[b#]*\d+,?)+\)$/);
      expect(printHarte(read(text))).toBe(text);
    }
  });
});
