/** How notes, degrees and counts are said. */
import { parseKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { assert, midiNote, pitchClass } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { counted, degreeWord, listed, noteWord, pitchWord, sentence } from "./words.ts";

function chordOf(symbol: string) {
  const read = parseChord(symbol);
  assert(read.ok && read.value.kind === "chord", `no chord: ${symbol}`);
  return read.value;
}

function keyOf(name: string) {
  const read = parseKey(name);
  assert(read.ok, `no key: ${name}`);
  return read.value;
}

test.each([
  [6, "D7", "F", "F♯"],
  [6, undefined, "Db", "G♭"],
  [1, "F7", "F", "D♭"],
  [8, "Bdim7", "C", "A♭"],
  [10, "C/Bb", "G", "B♭"],
])("pitch class %i under %s in %s is %s", (value, symbol, key, name) => {
  const chord = symbol === undefined ? undefined : chordOf(symbol);
  expect(noteWord(pitchClass(value), chord, keyOf(key))).toBe(name);
});

test("a pitch carries the octave of its letter: the B♯ that sounds as C4 is B♯3", () => {
  expect(pitchWord(midiNote(60), chordOf("G#"), keyOf("C#"))).toBe("B♯3");
  expect(pitchWord(midiNote(66), chordOf("D7"), keyOf("F"))).toBe("F♯4");
});

test.each([
  ["3", "the 3rd"],
  ["b3", "the 3rd"],
  ["b7", "the 7th"],
  ["bb7", "the 7th"],
  ["2", "the 2nd"],
  ["13", "the 13th"],
  ["b9", "the ♭9"],
  ["#11", "the ♯11"],
])("degree %s is %s", (degree, words) => {
  expect(degreeWord(degree)).toBe(words);
});

test("lists, counts and sentences", () => {
  expect([listed(["A"]), listed(["A", "B"]), listed(["A", "B", "C"])]).toEqual([
    "A",
    "A and B",
    "A, B and C",
  ]);
  expect([counted(2), counted(12), counted(13)]).toEqual(["two", "twelve", "13"]);
  expect(sentence("the upper lane")).toBe("The upper lane");
});
