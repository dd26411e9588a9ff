/**
 * R13: tones that a symbol allows, forbids, or that spell another chord.
 * Which colours a chord takes, and when a grip is another chord: common practice, no source.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function foreign(chord: string, lower: string, more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars([chord, "-", lower]), key: "F", ...more });
  return check(board).filter(({ rule }) => rule === "R13");
}

describe("R13", () => {
  test("R13 one tone outside the chord is a look", () => {
    const found = foreign("C7", "x-x-2-3-2-x");
    expect(found).toMatchObject([{ severity: "look", lanes: ["lower"], measured: 1 }]);
    expect(found[0]?.notes.map(({ pitch }) => pitch)).toEqual([61]);
    expect(found[0]?.words).toBe("The lower lane's D♭ is not in C7.");
  });

  test.each([
    ["C7", "x-x-2-3-3-x", "9 on a dominant"],
    ["C7", "x-x-x-3-5-5", "13 on a dominant"],
    ["C", "x-x-2-0-3-x", "9 on a major chord"],
    ["Gm7", "x-x-3-3-x-5", "9 on a minor chord"],
    ["Gm7", "x-x-3-3-1-x", "11 on a minor chord"],
    ["C7b9", "x-x-2-3-2-x", "a declared alteration"],
    ["C/Bb", "x-1-2-0-1-0", "a slash bass"],
    ["N.C.", "x-x-2-3-2-x", "no chord"],
    ["?", "x-x-2-3-2-x", "unreadable text"],
  ])("R13 %s takes %s: %s", (chord, grip) => {
    expect(foreign(chord, grip)).toEqual([]);
  });

  test("R13 a minor third over a major one is the style of a band with blue notes", () => {
    const blue = (chord: string, blueNotes: boolean) =>
      foreign(chord, "x-7-6-7-8-x", { more: { blueNotes } }).map(({ words }) => words);
    expect(blue("E7", false)).toEqual(["The lower lane's G is not in E7."]);
    expect(blue("E7", true)).toEqual([]);
    expect(blue("E7sus4", true)).toHaveLength(1);
  });

  test("R13 a fourth on a dominant is not allowed", () => {
    expect(foreign("C7", "x-x-x-3-1-1")).toHaveLength(1);
  });

  test("R13 a grip that spells another chord is a stop", () => {
    const found = foreign("F7", "4-6-4-5-4-4");
    expect(found).toMatchObject([{ severity: "stop", measured: 2, threshold: 2 }]);
    expect(found[0]?.words).toBe("The lower lane's grip sounds A♭7; the chart says F7.");
  });

  test("R13 mentions the capo that makes it another chord", () => {
    const [finding] = foreign("F7", "3-5-3-4-3-3", { capo: { lower: 1 } });
    expect(finding?.words).toContain("A♭7 with the capo on 1");
  });

  test("R13 leaves a forgotten capo to R14", () => {
    expect(foreign("F7", "1-3-1-2-1-1", { capo: { lower: 3 } })).toEqual([]);
  });

  test("R13 two foreign tones that spell no chord stay a look", () => {
    const found = foreign("C7", "x-x-x-x-2-2");
    expect(found).toMatchObject([{ severity: "look", measured: 2 }]);
    expect(found[0]?.words).toContain("are not in C7");
  });

  test("R13 root and 3rd both replaced are a stop without another chord", () => {
    const found = foreign("F7", "x-x-4-1-4-x");
    expect(found).toMatchObject([{ severity: "stop" }]);
    expect(found[0]?.words).toContain("contradict root and 3rd of F7");
  });

  test("R13 a pedal may be foreign between chords that allow it", () => {
    // D4 is the 5th of G and no part of Ebm.
    const through = (middle: string, last: string) =>
      check(
        smallBoard({
          sections: bars(["G", "-", "x-x-x-4-3-3"], [middle, "-", "x-x-x-3-3-2"], ["G", "-", last]),
          key: "G",
        }),
      ).filter(({ rule }) => rule === "R13");
    expect(through("Ebm", "x-x-x-4-3-3")).toEqual([]);
    expect(through("Ebm", "x-x-x-4-8-3")).toMatchObject([{ severity: "look", bars: ["b2"] }]);
  });

  test("R13 a pedal is held at its pitch, and begins and ends in a chord that allows it", () => {
    const pedal = (...chords: readonly string[]) =>
      check(
        smallBoard({
          sections: bars(...chords.map((chord) => [chord, "-", "x-x-x-x-3-x"] as const)),
          key: "G",
        }),
      ).filter(({ rule }) => rule === "R13");
    expect(pedal("G", "Ebm", "Db", "G")).toEqual([]);
    expect(pedal("G", "Ebm")).toHaveLength(1);
    expect(pedal("Ebm", "G")).toHaveLength(1);
    expect(pedal("G", "Ebm", "N.C.", "G")).toHaveLength(1);
  });

  test("R13 a chord of half a beat passes, a longer one does not", () => {
    const clear = ["C7", "-", "x-x-2-3-1-x"] as const;
    const stray = ["C7", "-", "x-x-2-3-2-x"] as const;
    const slots = (count: number) =>
      check(
        smallBoard({ sections: [[[...Array(count - 1).fill(clear), stray]]], key: "F" }),
      ).filter(({ rule }) => rule === "R13");
    expect(slots(8)).toEqual([]);
    expect(slots(6)).toHaveLength(1);
  });

  test("R13 judges each lane for itself", () => {
    const board = smallBoard({ sections: bars(["C7", "x-x-x-x-2-x", "x-x-2-3-3-x"]), key: "F" });
    const lanes = check(board).flatMap(({ rule, lanes }) => (rule === "R13" ? [lanes] : []));
    expect(lanes).toEqual([]);
    const apart = smallBoard({ sections: bars(["C7", "x-x-x-x-2-x", "x-x-2-3-1-x"]), key: "F" });
    const found = check(apart).filter(({ rule }) => rule === "R13");
    expect(found.map(({ lanes: [lane] }) => lane)).toEqual(["upper"]);
  });
});
