/** Chords are called by number, minor keys from either of their two ones. */
import { describe, expect, test } from "vitest";
import { type Key, parseKey } from "./key.ts";
import { parseChord } from "./parse-chord.ts";
import { type MinorCount, sessionNumber } from "./session-number.ts";

const keyOf = (text: string): Key => {
  const read = parseKey(text);
  if (!read.ok) throw new Error(`no key: ${text}`);
  return read.value;
};
const called = (chords: string, key: string, count?: MinorCount) =>
  chords
    .split(" ")
    .map((symbol) => {
      const chord = parseChord(symbol);
      if (!chord.ok) throw new Error(`no chord: ${symbol}`);
      return sessionNumber(chord.value, keyOf(key), count)?.text;
    })
    .join(" ");

describe("T23 a chord is called by its step in the major scale", () => {
  test.each([
    ["G C D Em", "G", "1 4 5 6-"],
    ["F7 Gm7 C7 Bdim7", "F", "1⁷ 2-⁷ 5⁷ #4°⁷"],
    ["C/E F/G G/B C/Bb", "C", "1/3 4/5 5/7 1/b7"],
    ["Bb Eb Ab Db", "Bb", "1 4 b7 b3"],
    ["Cmaj7 Bm7b5 Gaug G7sus4 F6", "C", "1maj7 7ø⁷ 5+ 5⁷sus4 4⁶"],
    ["C7(b9) Cadd9 Cm(maj7) C5", "C", "1⁷(b9) 1add9 1-(maj7) 1⁵"],
    ["C7/Bb F#m/C#", "F", "5⁷/4 #1-/#5"],
  ])("%s in %s is %s", (chords, key, numbers) => {
    expect(called(chords, key)).toBe(numbers);
  });

  test("a minor key counts from its relative major, or from its tonic", () => {
    expect(called("Am Dm E7 F G", "A minor")).toBe("6- 2- 3⁷ 4 5");
    expect(called("Am Dm E7 F G", "A minor", "tonic")).toBe("1- 4- 5⁷ b6 b7");
  });

  test("nobody's chord has no number", () => {
    expect(called("N.C.", "C")).toBe("");
  });

  test("number, quality and bass stand apart for the eye", () => {
    const chord = parseChord("Bm7/A");
    expect(chord.ok && sessionNumber(chord.value, keyOf("G"))).toEqual({
      number: "3",
      quality: "-7",
      bass: "2",
      text: "3-⁷/2",
    });
  });
});
