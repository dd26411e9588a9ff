/** Keys are read, counted and spelled. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fifthsOf, type Key, nameInKey, parseKey, printKey } from "./key.ts";
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
    ["Fbb", "Eb"],
    ["B## minor", "C# minor"],
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
