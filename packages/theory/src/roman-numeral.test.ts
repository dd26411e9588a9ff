/** Chords are named by their place in a key, in numerals and with figures. */
import { describe, expect, test } from "vitest";
import type { Chord } from "./chord.ts";
import { chordPlace } from "./chord-place.ts";
import { type Key, parseKey } from "./key.ts";
import { parseChord } from "./parse-chord.ts";
import { figuredNumeral, romanNumeral } from "./roman-numeral.ts";

const keyOf = (text: string): Key => {
  const read = parseKey(text);
  if (!read.ok) throw new Error(`no key: ${text}`);
  return read.value;
};

type Naming = (chord: Chord, key: Key, next?: Chord) => string | undefined;

function numerals(chords: string, key: string, naming: Naming): string {
  const read = chords.split(" ").map((symbol) => {
    const chord = parseChord(symbol);
    if (!chord.ok) throw new Error(`no chord: ${symbol}`);
    return chord.value;
  });
  return read
    .map((chord, index) => naming(chord, keyOf(key), read[index + 1]) ?? chord.symbol)
    .join(" | ");
}

const originOf: Naming = (chord, key, next) =>
  chord.kind === "chord" ? chordPlace(chord, key, next).origin : undefined;

describe("T6 chords are named by their place in the key", () => {
  const named = (chords: string, key: string) => numerals(chords, key, romanNumeral);

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

  test("a seventh at home leads on when the next chord is no seventh of its kind", () => {
    expect(named("C7 F7 C7 Fmaj7 C7 G7", "C")).toBe("I7 | IV7 | V7/IV | IV maj7 | I7 | V7");
    expect(named("G7 C D7 G E7 Am", "A minor")).toBe("V7/bIII | bIII | V7/bVII | bVII | V7 | i");
  });

  test("a plain major triad is a dominant only when it goes where a dominant goes", () => {
    expect(named("D Gm", "F")).toBe("V/ii | ii");
    expect(named("D F", "F")).toBe("VI | I");
  });

  test("nobody's chord has no numeral", () => {
    expect(romanNumeral({ kind: "no-chord", symbol: "N.C." }, keyOf("F"))).toBeUndefined();
  });

  test("a diminished chord belongs to the chord a semitone above only when it goes there", () => {
    expect(named("F#dim7 G C#dim7 Dm Edim F", "C")).toBe(
      "vii dim7/V | V | vii dim7/ii | ii | vii dim/IV | IV",
    );
    expect(named("F#dim7 C Bdim7 C", "C")).toBe("#iv dim7 | I | vii dim7 | I");
    expect(named("F#m7b5 G Bm7b5 E7", "C")).toBe("vii7b5/V | V | vii7b5 | V7/vi");
    expect(named("G#m7b5 Am", "C")).toBe("#v7b5 | vi");
    expect(named("Bm7b5 E7 G#dim7 Am", "A minor")).toBe("ii7b5 | V7 | vii dim7 | i");
  });

  test("a chord outside the key is counted as its root is spelled", () => {
    expect(named("D#dim7 C/E Gb7 F#7 Abm G#m", "C")).toBe("#ii dim7 | I/3 | bV7 | #IV7 | bvi | #v");
    expect(named("E#m A7", "Gb")).toBe("vii | #II7");
  });

  test("borrowed chords are counted from the major scale", () => {
    expect(named("C Fm Ab Bb Eb Db Dm7b5 G7", "C")).toBe(
      "I | iv | bVI | bVII | bIII | bII | ii7b5 | V7",
    );
  });

  test("an augmented triad may be a secondary dominant, and the slash names the bass", () => {
    expect(named("A+ Dm D/F# G C/E", "C")).toBe("V aug/ii | ii | V/3/V | V | I/3");
  });
});

describe("T22 figures name the inversion", () => {
  const figured = (chords: string, key: string) => numerals(chords, key, figuredNumeral);
  test.each([
    ["C C/E C/G", "C", "I | I6 | I64"],
    ["G7 G7/B G7/D G7/F", "C", "V7 | V65 | V43 | V42"],
    ["Dm7/F G7 Cmaj7", "C", "ii65 | V7 | IM7"],
    ["Bdim Bdim/D Bm7b5 Bm7b5/D C", "C", "vii° | vii°6 | viiø7 | viiø65 | I"],
    ["D7/F# G A7/C# Dm", "C", "V65/V | V | V65/ii | ii"],
    ["F#dim7/A G C#dim Dm", "C", "vii°65/V | V | vii°/ii | ii"],
    ["Fm/Ab Ab/C Db/F", "C", "iv6 | bVI6 | bII6"],
    ["Am/C E7/G# Bm7b5 E Am", "A minor", "i6 | V65 | iiø7 | V | i"],
    ["Caug Caug7 Am(maj7)", "C", "I+ | I+7 | viM7"],
    ["C6 C9/E C/D Csus4 N.C.", "C", "I6 | I9/3 | I/9 | I sus4 | N.C."],
  ])("%s in %s", (chords, key, expected) => {
    expect(figured(chords, key)).toBe(expected);
  });
});

describe("T22 a chord is at home, secondary, borrowed, a substitute or outside", () => {
  const origins = (chords: string, key: string) => numerals(chords, key, originOf);
  test.each([
    ["C Dm7 G7 Cmaj7", "C", "home | home | home | home"],
    ["F7 Bb7 C7", "F", "home | home | home"],
    ["D7 G7 F#dim7 G", "C", "secondary | home | secondary | home"],
    ["C Fm Ab Dm7b5 Eb", "C", "home | borrowed | borrowed | borrowed | borrowed"],
    ["Db7 C Ab7 G", "C", "substitute | home | substitute | home"],
    ["C F#m B C", "C", "home | outside | outside | home"],
    ["Am E7 D G#dim7 A", "A minor", "home | home | home | home | borrowed"],
  ])("%s in %s", (chords, key, expected) => {
    expect(origins(chords, key)).toBe(expected);
  });
});
