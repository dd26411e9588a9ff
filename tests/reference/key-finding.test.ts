/** Keys found in charts whose key is published or common knowledge, with the source beside each. */

import { printKey } from "@halflap/theory/key";
import { keysByLikelihood, profiles, type TimedChord } from "@halflap/theory/key-finding";
import { parseChord } from "@halflap/theory/parse-chord";
import { describe, expect, test } from "vitest";

const chart = (text: string): readonly TimedChord[] =>
  text.split(" ").map((symbol) => {
    const read = parseChord(symbol);
    if (!read.ok) throw new Error(`no chord: ${symbol}`);
    return { chord: read.value, length: 1 };
  });
const found = (text: string) => keysByLikelihood(chart(text)).map(({ key }) => printKey(key));

// Krumhansl & Kessler, Psychological Review 89, 1982; as printed in Krumhansl, Cognitive
// Foundations of Musical Pitch, 1990. Compared with the copies in several public analysis programs.
test("the profiles are those of Krumhansl and Kessler", () => {
  expect(profiles.major.join(" ")).toBe(
    "6.35 2.23 3.48 2.33 4.38 4.09 2.52 5.19 2.39 3.66 2.29 2.88",
  );
  expect(profiles.minor.join(" ")).toBe(
    "6.33 2.68 3.52 5.38 2.6 3.53 2.54 4.75 3.98 2.69 3.34 3.17",
  );
});

// Any history of music; the chords from memory.
describe("grounds of the sixteenth and seventeenth centuries", () => {
  test.each([
    ["the later folia", "Dm A Dm C F C Dm A Dm A Dm C F C Dm A Dm", "D minor"],
    ["the passamezzo antico", "Gm F Gm D Bb F Gm D Gm", "G minor"],
    ["the passamezzo moderno", "G C G D G C G D G", "G"],
    ["the romanesca", "Bb F Gm D Bb F Gm D Gm", "G minor"],
    ["the descending tetrachord", "Am G F E Am G F E Am", "A minor"],
  ])("%s", (_, chords, key) => {
    expect(found(chords)[0]).toBe(key);
  });
});

describe("pieces whose title says the key (chords read off the score from memory)", () => {
  test("the prelude in C major, The Well-Tempered Clavier I", () => {
    const first = "C Dm7/C G7/B C Am/C D7/C G/B Cmaj7/B Am7 D7 G C#dim7/G Dm/F Bdim7/F C/E Fmaj7/E";
    const second = "Dm7 G7 C C7 Fmaj7 F#dim7 Bdim7/Ab G7 C/G G7sus4 G7 Adim7/G C/G G7sus4 G7 C7";
    expect(found(`${first} ${second} F/C G7/C C`)[0]).toBe("C");
  });

  test("the canon in D major by Pachelbel", () => {
    expect(found("D A Bm F#m G D G A")[0]).toBe("D");
  });
});

describe("patterns that every band knows (common practice, no source)", () => {
  test.each([
    ["a blues in A, sevenths on all three", "A7 A7 A7 A7 D7 D7 A7 A7 E7 D7 A7 E7", "A"],
    ["a minor blues", "Am7 Am7 Am7 Am7 Dm7 Dm7 Am7 Am7 F7 E7 Am7 E7", "A minor"],
    ["a jazz blues in F", "F7 Bb7 F7 F7 Bb7 Bdim7 F7 D7 Gm7 C7 F7 C7", "F"],
    ["two five one", "Dm7 G7 Cmaj7 Cmaj7", "C"],
    ["two five one in minor", "Dm7b5 G7 Cm7 Cm7", "C minor"],
    ["one six four five", "C Am F G", "C"],
    ["one five six four", "G D Em C", "G"],
    ["one six two five with sevenths", "Bb6 G7 Cm7 F7 Bb6 G7 Cm7 F7", "Bb"],
    ["the circle through a minor key", "Am7 Dm7 G7 Cmaj7 Fmaj7 Bm7b5 E7 Am", "A minor"],
    ["a ragtime circle", "C A7 D7 G7 C C", "C"],
    ["a flat seventh degree", "D C G D", "D"],
    ["three chords in E", "E A E B7 A E", "E"],
    ["a key with six flats", "Ebm Abm Bb7 Ebm", "Eb minor"],
  ])("%s", (_, chords, key) => {
    expect(found(chords)[0]).toBe(key);
  });

  test("where two keys share all chords, the relative is the runner-up", () => {
    expect(found("Am F C G").slice(0, 2)).toEqual(["C", "A minor"]);
    expect(found("Em C G D Em").slice(0, 2)).toEqual(["E minor", "G"]);
  });
});
