/** R08: low intervals at and beside every limit, in one part and between the parts. */
import { midiNote, semitones } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { lowIntervalDeficit } from "../low-interval-limits.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function mud(chord: string, lower: string, upper = "-", more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars([chord, upper, lower]), ...more });
  return check(board).filter(({ rule }) => rule === "R08");
}

/** A major third from the low E string up, its root the chord's: none to four below the limit. */
const thirds: readonly (readonly [below: number, chord: string, grip: string])[] = [
  [0, "Bb", "6-5-x-x-x-x"],
  [1, "A", "5-4-x-x-x-x"],
  [2, "Ab", "4-3-x-x-x-x"],
  [3, "G", "3-2-x-x-x-x"],
  [4, "F#", "2-1-x-x-x-x"],
];

function severities(more: Partial<SmallBoard>): readonly (string | undefined)[] {
  return thirds.map(([, chord, grip]) => mud(chord, grip, "-", more)[0]?.severity);
}

describe("R08", () => {
  // Table 1: sweetwater.com/insync/low-interval-limit; table 2: the college table as an
  // open-source theory library has it.
  test.each([
    ["G2 and B2", 43, 4, 4, 3],
    ["B2 and D3", 47, 3, 1, 1],
    ["Bb2 and D3", 46, 4, 1, 0],
    ["C3 and E3", 48, 4, -1, -2],
    ["E2 and B2", 40, 7, -3, -6],
    ["C2 and Ab2", 36, 8, 5, 7],
    ["Eb2 and E3", 39, 13, undefined, 1],
    ["F1 and F2", 29, 12, undefined, undefined],
  ])("R08 %s lie so far below the strict and the usual table", (_, low, size, strict, usual) => {
    expect(lowIntervalDeficit(1, midiNote(low), semitones(size))).toBe(strict);
    expect(lowIntervalDeficit(2, midiNote(low), semitones(size))).toBe(usual);
  });

  test("R08 one below the limit is a note, two and three a look, four a fix", () => {
    expect(severities({})).toEqual([undefined, "note", "look", "look", "fix"]);
    expect(mud("G", "3-2-x-x-x-x")).toMatchObject([
      {
        lanes: ["lower"],
        measured: 3,
        threshold: 2,
        words: "G2 and B2 lie too close together that far down: it turns to mud.",
      },
    ]);
  });

  test("R08 goes by the strict table where the band wants it", () => {
    const strict = severities({ limits: { mudTable: 1 } });
    expect(strict).toEqual(["note", "look", "look", "fix", "fix"]);
  });

  test("R08 heavy distortion makes it one level graver, a duo without bass one lighter", () => {
    const more = { distorted: true };
    expect(severities({ more })).toEqual([undefined, "look", "fix", "fix", "fix"]);
    const duo = severities({ hasBass: false });
    expect(duo).toEqual([undefined, undefined, "note", "note", "look"]);
    const both = severities({ hasBass: false, more });
    expect(both).toEqual([undefined, "note", "look", "look", "fix"]);
  });

  test("R08 a note of each part under a bass is a fix from the first semitone", () => {
    expect(mud("A", "5-x-x-x-x-x", "x-4-x-x-x-x")).toMatchObject([
      { severity: "fix", lanes: ["upper", "lower"], measured: 1, threshold: 1 },
    ]);
    expect(mud("Bb", "6-x-x-x-x-x", "x-5-x-x-x-x")).toEqual([]);
    const duo = mud("G", "3-x-x-x-x-x", "x-2-x-x-x-x", { hasBass: false });
    expect(duo).toMatchObject([{ severity: "note", measured: 3 }]);
  });

  test("R08 octaves and unisons are free", () => {
    expect(mud("E", "0-x-2-x-x-x", "0-x-2-x-x-x")).toEqual([]);
  });

  test("R08 tests the lowest note over the bass note that sounds below it", () => {
    const [finding] = mud("G7", "x-2-3-x-x-x");
    expect(finding).toMatchObject({ severity: "look", measured: 3 });
    expect(finding?.notes.map(({ pitch }) => pitch)).toEqual([47]);
    expect(finding?.words).toBe("B2 is too low over the bass's G2: it turns to mud.");
    expect(mud("G7", "x-x-9-x-x-x")).toEqual([]);
    // Bb2 over C2 lies five below the limit of a minor seventh: no more than a look all the same.
    expect(mud("C7", "x-1-x-x-x-x")).toMatchObject([{ severity: "look", measured: 5 }]);
  });

  test("R08 takes the slash bass where a bass plays, the root where the ear supplies it", () => {
    expect(mud("G/B", "x-2-x-x-x-x")).toEqual([]);
    const [duo] = mud("G", "x-2-x-x-x-x", "-", { hasBass: false });
    expect(duo).toMatchObject({ severity: "note", measured: 3 });
    expect(duo?.words).toContain("too low over its root, G2");
  });

  // The usual open grips of these chords, the bass that the chart asks for lowest: common
  // practice, no source.
  test.each([
    ["D/F#", "2-0-0-2-3-2"],
    ["C/E", "0-3-2-0-1-0"],
    ["Am/G", "3-0-2-2-1-0"],
    ["G/B", "x-2-0-0-3-3"],
  ])("R08 in a duo without bass %s may have its own bass lowest", (chord, grip) => {
    const words = mud(chord, grip, "-", { hasBass: false }).map((finding) => finding.words);
    expect(words.filter((text) => text.includes("too low over"))).toEqual([]);
  });

  test("R08 the usual open grips of C, A, D, E and F pass, open G does not", () => {
    // Common practice, no source for the grips themselves.
    const open = [
      ["C", "x-3-2-0-1-0"],
      ["A", "x-0-2-2-2-0"],
      ["D", "x-x-0-2-3-2"],
      ["E", "0-2-2-1-0-0"],
      ["F", "1-3-3-2-1-1"],
    ] as const;
    expect(open.flatMap(([chord, grip]) => mud(chord, grip))).toEqual([]);
    expect(mud("G", "3-2-0-0-0-3")).toMatchObject([{ severity: "look", measured: 3 }]);
  });

  test("R08 names the gravest pairs in words, and all of them in its notes", () => {
    // G2 B2 three below the limit, B2 D3 one.
    const [finding] = mud("G", "3-2-0-x-x-x");
    expect(finding?.words).not.toContain("D3");
    expect(finding?.notes.map(({ pitch }) => pitch)).toEqual([43, 47, 50]);
    const [crowd] = mud("G", "3-2-0-x-x-x", "3-x-0-x-x-x");
    expect(crowd?.words).toContain("; so do B2 and D3.");
  });

  test("R08 leaves out a part that forgot its capo", () => {
    const capo = { upper: 3 };
    expect(mud("F7", "1-3-1-2-1-1", "1-3-1-2-1-1", { capo })).toEqual([]);
    expect(mud("Ab7", "1-3-1-2-1-1", "1-3-1-2-1-1", { capo })).toHaveLength(1);
  });
});
