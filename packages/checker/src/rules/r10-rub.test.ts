/**
 * R10 and R11: each distance that rubs or does not, and what the symbol allows.
 * thecraftofcomposing.com, Minor 9ths, 2017: avoid them between voices. The suspended fourth:
 * common practice, no source.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function rubs(chord: string, upper: string, lower: string, more: Partial<SmallBoard> = {}) {
  const played: Played = [chord, upper, lower];
  return check(smallBoard({ sections: bars(played), key: "F", ...more })).filter(
    ({ rule }) => rule === "R10" || rule === "R11",
  );
}

/** C4, and notes above it. */
const c4 = "x-x-x-x-1-x";
const above: Readonly<Record<number, string>> = {
  0: "x-x-x-5-x-x",
  1: "x-x-x-x-2-x",
  2: "x-x-x-x-3-x",
  11: "x-x-x-x-x-7",
  12: "x-x-x-x-x-8",
  13: "x-x-x-x-x-9",
  14: "x-x-x-x-x-10",
  25: "x-x-x-x-x-21",
};

describe("R10", () => {
  test.each([1, 13])("R10 %i semitones between the parts are a fix", (distance) => {
    const found = rubs("F", above[distance] ?? "", c4);
    expect(found).toMatchObject([{ rule: "R10", severity: "fix", measured: distance }]);
    expect(found[0]?.notes.map(({ pitch }) => pitch)).toEqual([60 + distance, 60]);
    expect(found[0]?.words).toBe("The upper lane's D♭ rubs against the lower lane's C.");
  });

  test.each([0, 2, 11, 12, 14, 25])("R10 %i semitones are nothing", (distance) => {
    expect(rubs("F", above[distance] ?? "", c4)).toEqual([]);
  });

  test("R10 holds with the lower lane on top", () => {
    expect(rubs("F", c4, above[13] ?? "")).toMatchObject([{ rule: "R10", measured: 13 }]);
  });

  test("R10 several rubs in one slot are one finding", () => {
    const found = rubs("F7", "4-6-4-5-4-4", "1-3-1-2-1-1");
    expect(found).toHaveLength(1);
    expect(found[0]?.words).toMatch(/rubs against .*; so does/);
  });

  test("R10 needs no chord: it holds under N.C. and unreadable text", () => {
    expect(rubs("N.C.", above[1] ?? "", c4)).toHaveLength(1);
    expect(rubs("?", above[1] ?? "", c4)).toHaveLength(1);
  });

  test("R10 a semitone that the symbol contains is a note, a minor ninth nothing", () => {
    const found = rubs("Cmaj7", c4, "x-x-x-x-0-x");
    expect(found).toMatchObject([{ severity: "note", measured: 1 }]);
    expect(found[0]?.words).toBe("C and B lie a semitone apart between you: the chord wants it.");
    expect(rubs("Cmaj7", above[12] ?? "", "x-x-x-x-0-x")).toEqual([]);
  });

  test("R10 not for a declared ♭9", () => {
    expect(rubs("C7b9", above[13] ?? "", c4)).toEqual([]);
    expect(rubs("C7", above[13] ?? "", c4)).toHaveLength(1);
  });

  test("R10 not for the minor ninths of a diminished seventh chord, but for its semitones", () => {
    expect(rubs("Bdim7", "x-x-x-x-x-11", "x-x-x-x-3-x")).toEqual([]);
    expect(rubs("Bdim7", "x-x-x-x-4-x", "x-x-x-x-3-x")).toHaveLength(1);
  });
});

describe("R10 where it may", () => {
  test("R10 a chord of half a beat passes, a longer one does not", () => {
    const clear: Played = ["F", "x-x-x-x-1-x", "x-x-x-x-1-x"];
    const rubbing: Played = ["F", above[1] ?? "", c4];
    const slots = (count: number) =>
      check(
        smallBoard({ sections: [[[...Array(count - 1).fill(clear), rubbing]]], key: "F" }),
      ).filter(({ rule }) => rule === "R10");
    expect(slots(8)).toEqual([]);
    expect(slots(6)).toHaveLength(1);
  });

  test("R10 the minor against the major third passes where the band plays blue notes", () => {
    // A4 over G#4, the two thirds of F; then the same distance elsewhere in the chord.
    const thirds = ["F7", "x-x-x-x-x-5", "x-x-x-x-9-x"] as const;
    expect(rubs(...thirds)).toMatchObject([{ severity: "fix" }]);
    expect(rubs(...thirds, { more: { blueNotes: true } })).toEqual([]);
    expect(rubs("F7", above[1] ?? "", c4, { more: { blueNotes: true } })).toHaveLength(1);
    const minor = ["Fm7", "x-x-x-x-x-5", "x-x-x-x-9-x"] as const;
    expect(rubs(...minor, { more: { blueNotes: true } })).toHaveLength(1);
  });
});

describe("R11", () => {
  test("R11 the 4th against the 3rd has a message of its own, in place of R10 and R13", () => {
    const board = smallBoard({
      sections: bars(["C7", "x-x-0-2-3-0", "x-3-2-0-1-0"]),
      capo: { upper: 3 },
      key: "F",
    });
    const found = check(board).filter(({ rule }) => ["R10", "R11", "R13"].includes(rule));
    expect(found).toMatchObject([{ rule: "R11", severity: "fix", measured: 1 }]);
    expect(found[0]?.words).toBe(
      "The upper lane holds the 4th (F) against the lower lane's 3rd (E): agree on one.",
    );
  });

  test("R11 names the lanes the other way round when the lower one holds the 4th", () => {
    const [finding] = rubs("C7", "x-x-x-x-5-x", "x-x-x-x-6-x");
    expect(finding?.words).toContain("The lower lane holds the 4th (F)");
  });

  test("R11 not at a distance that does not rub", () => {
    expect(rubs("C7", "x-x-x-x-5-x", "x-x-3-x-x-x")).toEqual([]);
  });

  test("R11 stands beside another rub in the slot", () => {
    const found = rubs("C7", "x-x-x-x-5-9", "x-x-x-x-1-1").map(({ rule }) => rule);
    expect(found).toEqual(["R10", "R11"]);
  });

  test("R11 not when the symbol asks for both", () => {
    expect(rubs("C11", "x-x-x-x-6-x", "x-x-x-x-5-x")).toMatchObject([
      { rule: "R10", severity: "note" },
    ]);
  });
});
