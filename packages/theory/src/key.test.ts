/** Keys are read, counted and spelled. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fifthsOf, type Key, nameInKey, parseKey, printKey, romanNumeral } from "./key.ts";
import { parseChord } from "./parse-chord.ts";
import { classOf, noteName } from "./pitch.ts";
import { pitchClass } from "./units.ts";

const keyOf = (text: string): Key => {
  const read = parseKey(text);
  if (!read.ok) throw new Error(`no key: ${text}`);
  return read.value;
};

describe("T7 a key is read as it is written", () => {
  test.each([
    ["Bb", "Bb", "major"],
    ["B♭ major", "Bb", "major"],
    ["F minor", "F", "minor"],
    ["Am", "A", "minor"],
    ["C# major", "C#", "major"],
    ["F#m", "F#", "minor"],
    ["  G  ", "G", "major"],
    ["D Minor", "D", "minor"],
    ["EbM", "Eb", "major"],
    ["A-", "A", "minor"],
  ])("%s", (text, tonic, mode) => {
    expect(keyOf(text)).toEqual({ tonic, mode });
  });

  test.each([
    ["bb", "Bb"],
    ["H", "B"],
    ["G# major", "Ab"],
    ["Q", undefined],
    ["Bb dorian", "Bb"],
    ["", undefined],
  ])("%s is refused and %s offered", (text, meant) => {
    const read = parseKey(text);
    expect(read.ok ? read.value : read.error.meant).toBe(meant);
    expect(read.ok).toBe(false);
  });

  test("printing and reading again gives the same key", () => {
    for (const letter of "CDEFGAB") {
      for (const sign of ["", "b", "#"]) {
        for (const mode of [" major", " minor"]) {
          const read = parseKey(letter + sign + mode);
          if (read.ok) expect(keyOf(printKey(read.value))).toEqual(read.value);
        }
      }
    }
  });
});

describe("T7 notes are spelled by the key", () => {
  test.each([
    ["F", "F Gb G Ab A Bb B C Db D Eb E"],
    ["E", "E F F# G G# A A# B C C# D D#"],
    ["C", "C Db D Eb E F F# G Ab A Bb B"],
    ["A minor", "A Bb B C C# D D# E F F# G G#"],
    ["Gb", "Gb G Ab A Bb Cb C Db D Eb E F"],
    ["F#", "F# G G# A A# B C C# D D# E E#"],
  ])("%s", (text, names) => {
    const key = keyOf(text);
    const tonic = classOf(key.tonic);
    const spelled = Array.from({ length: 12 }, (_, step) =>
      nameInKey(pitchClass(tonic + step), key),
    );
    expect(spelled.join(" ")).toBe(names);
  });

  test("a spelling is always of the pitch it spells", () => {
    const keys = ["Cb", "Gb", "Db", "F", "C", "G", "B", "C#", "Ab minor", "A# minor"].map(keyOf);
    fc.assert(
      fc.property(fc.constantFrom(...keys), fc.integer({ min: 0, max: 11 }), (key, value) => {
        const name = nameInKey(pitchClass(value), key);
        return classOf(name) === value && noteName(name) === name;
      }),
    );
  });

  test("a minor key has the signature of its relative major, three semitones up", () => {
    expect(fifthsOf(keyOf("F minor"))).toBe(fifthsOf(keyOf("Ab")));
    expect(fifthsOf(keyOf("C# minor"))).toBe(fifthsOf(keyOf("E")));
  });
});

describe("T6 chords are named by their place in the key", () => {
  const named = (chords: string, key: string) => {
    const read = chords.split(" ").map((symbol) => {
      const chord = parseChord(symbol);
      if (!chord.ok) throw new Error(`no chord: ${symbol}`);
      return chord.value;
    });
    return read.map((chord, index) => romanNumeral(chord, keyOf(key), read[index + 1])).join(" | ");
  };

  test("secondary dominants of a blues-coloured tune in F", () => {
    expect(named("F7 D7 Gm7 C7 F7 A7 Dm7 G7 C7", "F")).toBe(
      "I7 | V7/ii | ii7 | V7 | I7 | V7/vi | vi7 | V7/V | V7",
    );
    expect(named("Bb7 Bdim7 F7/C D7 G7 C7 F7 Bb7 F7 C7", "F")).toBe(
      "IV7 | #iv dim7 | I7/5 | V7/ii | V7/V | V7 | I7 | IV7 | I7 | V7",
    );
  });

  test("a minor key counts from the same steps", () => {
    expect(named("Am Dm7 E7 F G A7 Dm Bm7b5 E7 Am", "A minor")).toBe(
      "i | iv7 | V7 | bVI | bVII | V7/iv | iv | ii7b5 | V7 | i",
    );
  });

  test("a plain major triad is a dominant only when it goes where a dominant goes", () => {
    expect(named("D Gm", "F")).toBe("V/ii | ii");
    expect(named("D F", "F")).toBe("VI | I");
  });

  test("nobody's chord has no numeral", () => {
    expect(romanNumeral({ kind: "no-chord", symbol: "N.C." }, keyOf("F"))).toBeUndefined();
  });
});
