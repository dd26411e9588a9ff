/**
 * Chord symbols are read in all usual spellings, written in one, and refused with a place and a
 * guess.
 */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SoundingChord } from "./chord.ts";
import { chordTextMax, parseChord } from "./parse-chord.ts";
import { chord } from "./test-support/as-read.ts";

const degrees = (text: string) =>
  chord(text)
    .tones.map((tone) => tone.degree)
    .join(" ");

describe("T1 one chord has many spellings and one symbol", () => {
  test.each([
    ["Cm", "C- Cmi Cmin CMin Cminor C−"],
    ["Cmaj7", "CM7 Cma7 CMaj7 CMA7 CΔ CΔ7 C△7 C^7 C^ C7M C(maj7)"],
    ["Cm7b5", "Cø Cø7 CØ7 Cm7♭5 Cmi7(b5) C-7b5 Cm7-5 Cmin7(♭5) Chalf-dim7"],
    ["Cdim7", "C°7 Cº7 Co7 Cdim7"],
    ["Cdim", "C° Co Cdim Cm(b5)"],
    ["Caug", "C+ C+5 Caug C(#5) C(+5)"],
    ["C7(#5)", "C+7 Caug7 C7#5 C7+5 C7+ C7(♯5)"],
    ["Cm(maj7)", "CmM7 Cm(M7) CmΔ C-Δ7 Cmin(maj7) Cm^7 Cm+7 Cmmaj7 Cm/maj7"],
    ["C7sus4", "C7sus C7sus4 Csus7 C7(sus4) Cm7sus4"],
    ["C69", "C6/9 C69 C6(9) C6add9 C(6/9)"],
    ["Cadd9", "C2 C(9) Cadd2 C/9 C(add9) Cadd9"],
    ["C13(b9)", "C13b9 C7(b9,13) C7b9/13 C13(♭9)"],
    ["C9(#11)", "C9#11 C9+11 C9+4 C9(#4) C9♯11"],
    ["C7alt", "Calt C7alt C7(alt)"],
    ["C7(13)", "C67 C6/7 C7/6 C7(6) C7(13) C7add13"],
    ["Cm7b5", "Chdim Chdim7 Chalfdim Chalf-diminished7"],
    ["Csus4", "Csuspended Csuspended4"],
    ["C7", "Cdom7 Cdominant7 C7th"],
    ["C5", "C5 Cno3 C(no3) Comit3"],
    ["Bb/F", "B♭/F Bb/F"],
    ["F##7", "Fx7 F𝄪7 F♯♯7"],
    ["Ebbm7", "E♭♭m7 E𝄫-7 Ebbmin7"],
  ])("%s", (symbol, spellings) => {
    for (const spelling of spellings.split(" ")) {
      expect(chord(spelling).symbol, spelling).toBe(symbol);
    }
  });

  test("brackets, commas and spaces only separate", () => {
    for (const spelling of ["C7b9#11", "C7(b9)(#11)", "C7[♭9,♯11]", "C7 b9 #11", "C7(b9 #11)"]) {
      expect(chord(spelling).symbol).toBe("C7(b9,#11)");
    }
    expect(chord("  Bb / F ").symbol).toBe("Bb/F");
  });

  test.each(["N.C.", "NC", "n.c.", "N.C", "no chord"])("%s is nobody's chord", (text) => {
    expect(parseChord(text)).toEqual({ ok: true, value: { kind: "no-chord", symbol: "N.C." } });
  });

  test("a slash before a number is no bass", () => {
    expect(chord("C6/9").bass).toBe("C");
    expect(chord("C6/9/E").bass).toBe("E");
  });
});

describe("T2 a symbol asks for its tones", () => {
  test.each([
    ["C", "1 3 5"],
    ["Cm", "1 b3 5"],
    ["C7", "1 3 5 b7"],
    ["Cm9", "1 b3 5 b7 9"],
    ["C11", "1 3 5 b7 9 11"],
    ["C13", "1 3 5 b7 9 13"],
    ["Cm13", "1 b3 5 b7 9 11 13"],
    ["C13#11", "1 3 5 b7 9 #11 13"],
    ["C7b13", "1 3 5 b7 b13"],
    ["C7b5b9", "1 3 b5 b7 b9"],
    ["C9sus4", "1 4 5 b7 9"],
    ["Csus2", "1 2 5"],
    ["Csus2sus4", "1 2 4 5"],
    ["Cdim7", "1 b3 b5 bb7"],
    ["Cdim(maj7)", "1 b3 b5 7"],
    ["C7alt", "1 3 b5 #5 b7 b9 #9"],
    ["C5", "1 5"],
    ["C7no5", "1 3 b7"],
    ["C7(no3)", "1 5 b7"],
    ["C7(13)", "1 3 5 b7 13"],
    ["Cmadd9", "1 b3 5 9"],
    ["Cm(b6)", "1 b3 5 b6"],
  ])("%s: %s", (text, tones) => {
    expect(degrees(text)).toBe(tones);
  });

  test.each([
    ["Edim7", "E G Bb Db"],
    ["Bdim7", "B D F Ab"],
    ["F#maj7", "F# A# C# E#"],
    ["Gbm7b5", "Gb Bbb Dbb Fb"],
    ["Abm7", "Ab Cb Eb Gb"],
    ["Bbbdim7", "Bbb Dbb Fbb Gb"],
  ])("%s is spelled %s", (text, names) => {
    expect(
      chord(text)
        .tones.map((tone) => tone.name)
        .join(" "),
    ).toBe(names);
  });
});

describe("T3 T4 T5 what makes a chord, what it spares, what it bears", () => {
  const list = (tones: SoundingChord["tones"]) => tones.map((tone) => tone.degree).join(" ");
  test.each([
    ["C", "3", "5 1", "9 13"],
    ["C7", "3 b7", "5 1", "9 13"],
    ["Cm7", "b3 b7", "5 1", "9 11"],
    ["C6", "3 6", "5 1", "9"],
    ["C7sus4", "4 b7", "5 1", "9 13"],
    // A whole step above each tone, the other half of the whole-half diminished scale: standard
    // chord-scale teaching.
    ["Cdim7", "b3 b5 bb7", "1", "9 11 b13 7"],
    // Without its seventh the b13 would be the root of a dominant, Ab7: common practice, no source.
    ["Cdim", "b3 b5", "1", "9 11 bb7"],
    ["Cm7b5", "b3 b5 b7", "1", "9 11"],
    ["C11", "11 b7", "3 5 9 1", "13"],
    ["C13", "3 b7", "5 9 1", ""],
    ["C7b9", "3 b7", "5 1", "13"],
    ["C7#5", "3 b7", "1", "9"],
    // A flat sixth is the flat thirteenth, and bears no plain one: common practice, no source.
    ["C7b13", "3 b7", "5 1", "9"],
    ["C7b6", "3 b7", "5 1", "9"],
    ["C(b6)", "3", "5 1", "9"],
    ["C5", "", "5 1", ""],
  ])("%s", (text, guide, omittable, tensions) => {
    const read = chord(text);
    expect(list(read.guideTones)).toBe(guide);
    expect(list(read.omittable)).toBe(omittable);
    expect(list(read.tensions)).toBe(tensions);
  });
});

describe("T1 what is no chord is refused with a place and a guess", () => {
  test.each([
    ["Cq7", "unknown-quality", 1, "q7", "C7"],
    ["H7", "unknown-root", 0, "H", "B7"],
    ["am7", "unknown-root", 0, "a", "Am7"],
    ["bb7", "unknown-root", 0, "b", "Bb7"],
    ["  Cq7", "unknown-quality", 3, "q7", "C7"],
    ["Cmja7", "unknown-quality", 2, "ja7", "Cmaj7"],
    ["Csu4", "unknown-quality", 1, "su4", "Csus4"],
    ["Fis7", "unknown-quality", 1, "is7", "F#7"],
    ["F/c", "unknown-bass", 1, "/c", "F/C"],
    ["Cdom", "unknown-quality", 1, "dom", "C7"],
    ["Ch7", "unknown-quality", 1, "h7", "Cm7b5"],
    ["C/H", "unknown-bass", 1, "/H", "C/B"],
    ["C9b9", "contradiction", 2, "b9", "C7(b9)"],
    ["C13alt", "contradiction", 1, "13", "C7alt"],
    ["C7alt9", "contradiction", 5, "9", "C7alt"],
    ["Cmm7", "contradiction", 2, "m", "Cm7"],
    ["Cdim#5", "contradiction", 4, "#5", "Cdim"],
    ["Cxyz", "unknown-quality", 2, "yz", undefined],
    ["?", "unknown-root", 0, "?", undefined],
    ["   ", "empty", 3, "", undefined],
  ])("%s", (text, kind, column, read, meant) => {
    const result = parseChord(text);
    expect(result.ok ? result.value.symbol : result.error).toMatchObject({ kind, column, read });
    expect(result.ok ? undefined : result.error.meant).toBe(meant);
  });

  test("longer text than any chord has is not read", () => {
    const read = parseChord(`C${"7".repeat(10_000)}`);
    expect(read.ok ? undefined : read.error.column).toBe(chordTextMax);
  });
});

describe("T2 the symbol reads to the same chord", () => {
  const pieces = [
    "m maj M Δ dim ø aug + - sus sus2 sus4 7 9 11 13 6 69 5 b5 #5 b9 #9 #11 b13 b6",
    "add9 add11 add13 no3 no5 alt (13) ( ) , /9 +5 -9 2 4",
  ].flatMap((line) => line.split(" "));
  const piece = fc.constantFrom(...pieces);
  const root = fc.constantFrom(..."C Db F# Bb E Abb G## B".split(" "));

  test("whatever pieces are put together", () => {
    let readable = 0;
    fc.assert(
      fc.property(root, fc.array(piece, { maxLength: 5 }), (note, put) => {
        const first = parseChord(note + put.join(""));
        if (!first.ok) return first.error.meant === undefined || parseChord(first.error.meant).ok;
        readable++;
        const second = parseChord(first.value.symbol);
        return second.ok && JSON.stringify(second.value) === JSON.stringify(first.value);
      }),
      { numRuns: 4000 },
    );
    expect(readable).toBeGreaterThan(400);
  });

  test("any text is read or refused, never thrown", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 60 }), (text) => {
        const read = parseChord(text);
        return read.ok || read.error.column <= Math.max(text.length, chordTextMax);
      }),
    );
  });
});
