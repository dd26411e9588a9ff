/** Chords named by their place in a key, against published tables and harmony books. */

import { chordPlace } from "@halflap/theory/chord-place";
import { fifthsMax, fifthsOf, type Key, nameInKey, parseKey } from "@halflap/theory/key";
import { classOf, noteName } from "@halflap/theory/pitch";
import { figuredNumeral, romanNumeral } from "@halflap/theory/roman-numeral";
import { sessionNumber } from "@halflap/theory/session-number";
import { chord, key } from "@halflap/theory/test-support/as-read";
import { chordProgressions, getChordProgressionChordNames } from "@musodojo/music-theory-data";
import { Key as TonalKey } from "tonal";
import { describe, expect, test } from "vitest";

const tonics = [..."CDEFGAB"].flatMap((letter) => ["", "b", "#"].map((sign) => letter + sign));
const within = (text: string) => parseKey(text).ok && Math.abs(fifthsOf(key(text))) <= fifthsMax;
const majors = tonics.filter(within);
const minors = tonics.filter((tonic) => within(`${tonic} minor`));
const numerals = (chords: readonly string[], home: Key) =>
  chords.map((text) => romanNumeral(chord(text), home)).join(" ");

// The key tables of tonal (MIT), on all keys of up to seven accidentals.
describe("keys against the tables of another library", () => {
  test("there are fifteen of each mode", () => {
    expect([majors.length, minors.length]).toEqual([15, 15]);
  });

  test("scales are spelled alike", () => {
    for (const tonic of majors) {
      const { scale } = TonalKey.majorKey(tonic);
      expect(scale.map((name) => spelled(name, key(tonic)))).toEqual(scale);
    }
    for (const tonic of minors) {
      const { scale } = TonalKey.minorKey(tonic).natural;
      expect(scale.map((name) => spelled(name, key(`${tonic} minor`)))).toEqual(scale);
    }
  });

  test("the chords of the scale have the numerals of their steps, and are at home", () => {
    for (const tonic of majors) {
      const { triads, chords } = TonalKey.majorKey(tonic);
      expect(numerals(triads, key(tonic))).toBe("I ii iii IV V vi vii dim");
      expect(numerals(chords, key(tonic))).toBe("I maj7 ii7 iii7 IV maj7 V7 vi7 vii7b5");
      expect(origins([...triads, ...chords], key(tonic))).toEqual(new Set(["home"]));
    }
    for (const tonic of minors) {
      const home = key(`${tonic} minor`);
      const { natural, harmonic } = TonalKey.minorKey(tonic);
      expect(numerals(natural.triads, home)).toBe("i ii dim bIII iv v bVI bVII");
      expect(numerals(harmonic.triads, home)).toBe("i ii dim bIII aug iv V bVI vii dim");
      expect(origins([...natural.chords, ...harmonic.triads], home)).toEqual(new Set(["home"]));
    }
  });

  test("secondary dominants lead to the steps they are filed under", () => {
    for (const tonic of majors) {
      const { secondaryDominants, triads } = TonalKey.majorKey(tonic);
      const named = secondaryDominants.flatMap((dominant, step) =>
        dominant === "" ? [] : romanNumeral(chord(dominant), key(tonic), chord(triads[step] ?? "")),
      );
      expect(named.join(" "), tonic).toBe("V7/ii V7/iii V7/IV V7/V V7/vi");
    }
    for (const tonic of minors) {
      const { secondaryDominants, triads } = TonalKey.minorKey(tonic).natural;
      const home = key(`${tonic} minor`);
      const named = secondaryDominants.flatMap((dominant, step) =>
        dominant === "" ? [] : romanNumeral(chord(dominant), home, chord(triads[step] ?? "")),
      );
      expect(named.join(" "), tonic).toBe("V7 V7/iv V7/V V7/bVI V7/bVII");
    }
  });

  test("the substitutes of these dominants are substitutes, but the blues' own IV7", () => {
    for (const tonic of majors) {
      const { substituteDominants, triads } = TonalKey.majorKey(tonic);
      const found = substituteDominants.flatMap((dominant, step) =>
        dominant === ""
          ? []
          : chordPlace(chord(dominant), key(tonic), chord(triads[step] ?? "")).origin,
      );
      expect(found.join(" "), tonic).toBe("substitute home substitute substitute home");
    }
  });

  test("what the minor key on the same tonic has and the major has not is borrowed", () => {
    for (const tonic of majors.filter((name) => minors.includes(name))) {
      const own = TonalKey.majorKey(tonic).triads;
      const foreign = TonalKey.minorKey(tonic).natural.triads.filter((each) => !own.includes(each));
      expect(origins(foreign, key(tonic)), tonic).toEqual(new Set(["borrowed"]));
      expect(numerals(foreign, key(tonic))).toBe("i ii dim bIII iv v bVI bVII");
    }
  });
});

// @musodojo/music-theory-data (CC0): its progressions say degree and quality of each chord.
describe("chord progressions of another collection", () => {
  test.each(Object.entries(chordProgressions))("%s", (_, progression) => {
    const steps: readonly { readonly degree: string; readonly quality: string }[] =
      progression.chords;
    for (const root of ["C", "F♯", "E♭", "A"] as const) {
      const names = getChordProgressionChordNames(root, progression);
      const isMinor = steps.some(({ degree, quality }) => degree === "1" && quality === "m");
      const home = key(`${root}${isMinor ? " minor" : ""}`);
      const degrees = steps.map(({ degree }) => degree);
      const called = names.map((name) => sessionNumber(chord(name), home, "tonic")?.number);
      expect(called).toEqual(degrees);
      const small = names.map((name) => /^[iv]/.test(romanNumeral(chord(name), home) ?? ""));
      expect(small).toEqual(steps.map(({ quality }) => /^m|^ø|^°/.test(quality)));
    }
  });
});

// Figures for inversions: the common table of harmony books, as in Kostka & Payne, Tonal Harmony,
// and Aldwell & Schachter, Harmony and Voice Leading; from memory.
describe("figured numerals", () => {
  test.each([
    ["C", "C C/E C/G", "I I6 I64"],
    ["C", "G7 G7/B G7/D G7/F", "V7 V65 V43 V42"],
    ["G", "A7/C# D D7/F# G", "V65/V V V65 I"],
    ["Bb", "D7/F# Gm Edim7 F", "V65/vi vi vii°7/V V"],
    ["D minor", "Em7b5/G A7 Dm C#dim7/E Dm/F", "iiø65 V7 i vii°65 i6"],
    ["E minor", "Am/C B", "iv6 V"],
  ])("in %s: %s", (home, chords, expected) => {
    const read = chords.split(" ").map(chord);
    const named = read.map((each, index) => figuredNumeral(each, key(home), read[index + 1]));
    expect(named.join(" ")).toBe(expected);
  });
});

// The number system of Nashville as encyclopedias describe it: steps of the major scale, a dash or
// m for minor, the bass behind a slash; minor keys from the relative major or from the tonic.
describe("session numbers", () => {
  test.each([
    ["C", "C F G C", "1 4 5 1"],
    ["D", "D Bm G A", "1 6- 4 5"],
    ["A", "A/C# D E/G# F#m", "1/3 4 5/7 6-"],
    ["A minor", "Am Dm G C", "6- 2- 5 1"],
  ])("in %s: %s", (home, chords, expected) => {
    const called = chords.split(" ").map((each) => sessionNumber(chord(each), key(home))?.text);
    expect(called.join(" ")).toBe(expected);
  });
});

function spelled(name: string, home: Key): string {
  const note = noteName(name);
  if (note === undefined) throw new Error(`no note: ${name}`);
  return nameInKey(classOf(note), home);
}

function origins(chords: readonly string[], home: Key): ReadonlySet<string> {
  return new Set(chords.map((each) => chordPlace(chord(each), home).origin));
}
