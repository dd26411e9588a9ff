/** Chords are read and written in the syntax of Harte et al., and refused with a place. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { harteTextMax, parseHarte, printHarte } from "./harte.ts";
import { degreeBetween, noteAtDegree } from "./letter-degree.ts";
import { parseChord } from "./parse-chord.ts";
import { noteName } from "./pitch.ts";

const symbolOf = (text: string) => {
  const read = parseHarte(text);
  return read.ok ? read.value.symbol : read.error;
};

describe("T21 a symbol is written with the nearest shorthand", () => {
  test.each([
    ["C", "C:maj"],
    ["Am7", "A:min7"],
    ["Bbm7b5", "Bb:hdim7"],
    ["C7no5", "C:7(*5)"],
    ["F7/C", "F:7/5"],
    ["G7b9", "G:7(b9)"],
    ["C5", "C:(5)"],
    ["Csus2", "C:(2,5)"],
    ["C9sus4", "C:sus4(b7,9)"],
    ["C7#5", "C:aug(b7)"],
    ["C13", "C:9(13)"],
    ["Cm6/9", "C:min6(9)"],
    ["G/F#", "G:maj/7"],
    ["Fm/Gb", "F:min/b2"],
    ["N.C.", "N"],
  ])("%s is %s", (symbol, harte) => {
    const read = parseChord(symbol);
    if (!read.ok) throw new Error(`no chord: ${symbol}`);
    expect(printHarte(read.value)).toBe(harte);
    expect(symbolOf(harte)).toBe(read.value.symbol);
  });
});

describe("T21 what others write is read", () => {
  test.each([
    ["C", "C"],
    ["Eb/5", "Eb/Bb"],
    ["C:(3,5)", "C"],
    ["C:(1,3,5)", "C"],
    ["C:maj(9)", "Cadd9"],
    ["C:maj(2)", "Cadd9"],
    ["C:maj(4)", "Cadd11"],
    ["C:7(6)", "C7(13)"],
    ["C:min(*b3,#9)/5", "C5(#9)/G"],
    ["D:(4,b7,9)", "D9sus4(no5)"],
    ["A:(10,12)", "A"],
    ["A:sus2", "Asus2"],
    ["A:5", "A5"],
    ["C:(1)", "C(no3,no5)"],
    ["  D:min  ", "Dm"],
    ["C:min7(*5,b5)", "Cm7b5"],
    ["C:13", "C13(11)"],
  ])("%s is %s", (harte, symbol) => {
    expect(symbolOf(harte)).toBe(symbol);
  });
});

describe("T21 what is not in the syntax is refused with a place", () => {
  test.each([
    ["", "empty", 0, undefined],
    ["H:maj", "unknown-root", 0, undefined],
    ["C###:maj", "unknown-root", 0, undefined],
    ["Cm7", "unknown-shorthand", 1, "C:min7"],
    ["C:m7", "unknown-shorthand", 2, "C:min7"],
    [" C:", "unknown-shorthand", 3, "C:maj"],
    ["C:min7(", "unknown-degree", 7, "C:min7"],
    ["C:min7(b9", "unknown-degree", 9, "C:min7(b9)"],
    ["C:7(b9,x)", "unknown-degree", 7, undefined],
    ["C:7(*9)", "unknown-degree", 4, undefined],
    ["C:7/", "unknown-degree", 4, undefined],
    ["C:7/E", "unknown-degree", 4, "C:7/3"],
    ["C:maj(14)", "unknown-degree", 6, undefined],
    ["C:maj(b5)", "no-symbol", 9, undefined],
    ["C:maj(*1)", "unknown-degree", 6, undefined],
    ["C:(#3,5)", "no-symbol", 8, undefined],
  ])("%s", (text, kind, column, meant) => {
    const read = parseHarte(text);
    expect(read.ok ? read.value.symbol : read.error).toMatchObject({ kind, column });
    expect(read.ok ? undefined : read.error.meant).toBe(meant);
  });

  test("longer text than any chord has is not read", () => {
    const read = parseHarte(`C:7(${"b9,".repeat(10_000)})`);
    expect(read.ok ? undefined : read.error.column).toBe(harteTextMax);
  });
});

describe("T21 a bass is counted in letters", () => {
  const names = [..."CDEFGAB"].flatMap((letter) =>
    ["", "b", "bb", "#", "##"].flatMap((sign) => noteName(letter + sign) ?? []),
  );

  test("to the degree and back for every pair of notes", () => {
    for (const root of names) {
      for (const bass of names) {
        expect(noteAtDegree(root, degreeBetween(root, bass)), `${bass} on ${root}`).toBe(bass);
      }
    }
  });
});

describe("T21 reading and writing undo each other", () => {
  const degree = fc.constantFrom(
    ..."2 b3 3 4 b5 5 #5 b6 6 bb7 b7 7 b9 9 #9 11 #11 b13 13".split(" "),
  );
  const note = fc.constantFrom(..."C Db D# Eb E F Gb G## Ab A Bbb Cb".split(" "));

  test("from any list of degrees that is read", () => {
    let count = 0;
    fc.assert(
      fc.property(note, fc.uniqueArray(degree, { minLength: 1, maxLength: 6 }), (root, degrees) => {
        const read = parseHarte(`${root}:(${degrees.join()})`);
        if (!read.ok) return read.error.kind === "no-symbol";
        count++;
        const again = parseHarte(printHarte(read.value));
        return again.ok && JSON.stringify(again.value) === JSON.stringify(read.value);
      }),
      { numRuns: 3000 },
    );
    expect(count).toBeGreaterThan(600);
  });
});
