/** Notes are read and written with the German H and B where that is somebody's schooling. */
import { describe, expect, test } from "vitest";
import { pretty } from "./display.ts";
import { parseKey, printKey } from "./key.ts";
import { noteAtStart, writtenNote, writtenSymbol } from "./note-naming.ts";
import { parseChord } from "./parse-chord.ts";
import { noteName } from "./pitch.ts";

const allNames = [..."CDEFGAB"].flatMap((letter) =>
  ["", "b", "bb", "#", "##"].map((sign) => noteName(letter + sign)),
);

const symbolOf = (text: string) => {
  const read = parseChord(text, "german");
  return read.ok ? read.value.symbol : read.error;
};

describe("T20 German names are read where asked for", () => {
  test.each([
    ["H7", "B7"],
    ["B7", "Bb7"],
    ["Bb7", "Bb7"],
    ["B♭m", "Bbm"],
    ["Hm7b5/A", "Bm7b5/A"],
    ["G/H", "G/B"],
    ["Gm/B", "Gm/Bb"],
    ["Fism7", "F#m7"],
    ["Cisdim7", "C#dim7"],
    ["Es7", "Eb7"],
    ["Esus4", "Esus4"],
    ["Essus4", "Ebsus4"],
    ["Asus2", "Asus2"],
    ["As/Es", "Ab/Eb"],
    ["Asmaj7", "Abmaj7"],
    ["Desmaj7", "Dbmaj7"],
    ["Heses", "Bbb"],
    ["Dis7", "D#7"],
    ["Ddim", "Ddim"],
    ["N.C.", "N.C."],
    ["C7", "C7"],
  ])("%s is %s", (text, symbol) => {
    expect(symbolOf(text)).toBe(symbol);
  });

  test.each([
    ["B#7", "unknown-root", 0, "H#7"],
    ["h7", "unknown-root", 0, "H7"],
    ["b7", "unknown-root", 0, "B7"],
    ["Hq7", "unknown-quality", 1, "H7"],
    ["Bq7", "unknown-quality", 1, "B7"],
    ["G7/h", "unknown-bass", 2, "G7/H"],
  ])("%s is refused, and the guess is German too", (text, kind, column, meant) => {
    expect(symbolOf(text)).toMatchObject({ kind, column, meant });
  });

  test.each([
    ["H", "B"],
    ["B", "Bb"],
    ["h-Moll", "B minor"],
    ["H moll", "B minor"],
    ["B-Dur", "Bb"],
    ["fis-Moll", "F# minor"],
    ["Es", "Eb"],
    ["Cis-Dur", "C#"],
  ])("the key %s is %s", (text, printed) => {
    const read = parseKey(text, "german");
    expect(read.ok ? printKey(read.value) : read.error).toBe(printed);
  });

  test("English is the default and knows no H", () => {
    expect(parseChord("H7").ok).toBe(false);
    expect(parseKey("H").ok).toBe(false);
    expect(noteAtStart("H", "english")).toBeUndefined();
  });
});

describe("T20 German names are written where asked for", () => {
  test("each note reads back as itself", () => {
    for (const name of allNames) {
      if (name === undefined) throw new Error("no note");
      const written = writtenNote(name, "german");
      expect(noteAtStart(written, "german")).toEqual({ name, length: written.length });
    }
  });

  test.each([
    ["B7", "H7"],
    ["Bbmaj7", "Bmaj7"],
    ["G/B", "G/H"],
    ["Bb/F", "B/F"],
    ["C7(b9)", "C7(b9)"],
    ["N.C.", "N.C."],
  ])("%s is written %s", (symbol, written) => {
    const read = parseChord(symbol);
    expect(read.ok && writtenSymbol(read.value, "german")).toBe(written);
    expect(symbolOf(written)).toBe(symbol);
  });

  test.each([
    ["B7", "H7"],
    ["Bb7", "B7"],
    ["B", "H"],
    ["Bbb", "H𝄫"],
    ["Bm7b5/F#", "Hm7♭5/F♯"],
    ["Bb minor", "B minor"],
    ["B3", "H3"],
    ["F Bb b3 B", "F B ♭3 H"],
    ["Bar 3, both, Bass", "Bar 3, both, Bass"],
  ])("%s is shown as %s", (text, shown) => {
    expect(pretty(text, "german")).toBe(shown);
  });

  test("English is shown as ever", () => {
    expect(pretty("Bbmaj7/B")).toBe("B♭maj7/B");
    expect(allNames.map((name) => name && writtenNote(name, "english"))).toEqual(allNames);
  });
});
