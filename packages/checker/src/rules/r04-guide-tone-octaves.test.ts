/**
 * R04: guide tones in octaves, and those that may be.
 * Integrated Music Theory 2018-19, voice-leading errors: no doubled thirds and sevenths in
 * seventh chords.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function octaves(played: Played, key = "C", more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars(played), form: [0, 0], key, ...more });
  return check(board).filter(({ rule }) => rule === "R04");
}

describe("R04", () => {
  test("R04 a 3rd on two pitches, one in each part, is a note", () => {
    const found = octaves(["G7", "x-x-x-x-8-7", "x-x-3-4-3-x"]);
    expect(found).toMatchObject([{ severity: "note", measured: 2, threshold: 2 }]);
    expect(found[0]?.words).toBe(
      "You both carry the 3rd (B) in different octaves: one of you could take another note.",
    );
    expect(found[0]?.notes.map(({ pitch }) => pitch)).toEqual([71, 59]);
  });

  test("R04 a 3rd on three pitches is a look", () => {
    expect(octaves(["G7", "x-x-x-x-8-7", "x-2-x-0-0-1"])).toMatchObject([
      { severity: "look", measured: 3, threshold: 3 },
    ]);
  });

  test("R04 says in how many octaves, also where two are enough for the band", () => {
    const words = (grip: string, look: number) =>
      octaves(["G7", "x-x-x-x-8-7", grip], "C", { limits: { guideTonePitchesLook: look } })[0]
        ?.words;
    expect(words("x-2-x-0-0-1", 3)).toContain("(B) sounds in three octaves: thin it out");
    expect(words("x-x-3-4-3-x", 2)).toContain("(B) sounds in two octaves: thin it out");
  });

  test("R04 a 3rd on top of both parts is a look", () => {
    const found = octaves(["G7", "x-x-x-x-8-7", "x-x-3-4-x-x"]);
    expect(found).toMatchObject([{ severity: "look", measured: 2 }]);
    expect(found[0]?.words).toBe("You both have the 3rd (B) on top.");
  });

  test("R04 names every guide tone of the slot in one finding", () => {
    const found = octaves(["C7sus4", "x-x-x-x-11-13", "x-3-3-3-1-x"]);
    expect(found).toHaveLength(1);
    expect(found[0]?.words).toContain("the 4th (F) and the 7th (B♭)");
  });

  test("R04 not where the unison is meant, a hook in octaves", () => {
    const played: Played = ["G7", "x-x-x-x-8-7", "x-x-3-4-3-x"];
    expect(octaves(played, "C", { aims: { 1: ["unison"] } })).toEqual([]);
    expect(octaves(played, "C", { aims: { 1: ["lock"] } })).toHaveLength(1);
  });

  test("R04 not for one pitch, nor for octaves inside one part", () => {
    expect(octaves(["G", "x-x-x-4-3-x", "x-x-5-4-x-x"])).toEqual([]);
    expect(octaves(["G7", "x-x-x-x-8-10", "3-2-0-0-0-1"])).toEqual([]);
  });

  test("R04 not for the 3rd of a minor triad, but for that of a minor seventh chord", () => {
    expect(octaves(["Am", "x-x-x-x-13-12", "x-0-2-2-1-0"])).toEqual([]);
    expect(octaves(["Am7", "x-x-x-x-13-12", "x-0-2-0-1-0"])).toHaveLength(1);
  });

  test("R04 not for the fifth of a diminished chord", () => {
    expect(octaves(["Bdim7", "x-x-x-10-12-x", "x-x-3-4-x-x"])).toEqual([]);
  });

  test("R04 the 7th of I7 and IV7 stays a note on any number of pitches", () => {
    const everywhere: Played = ["F7", "x-x-x-8-8-11", "1-3-1-2-1-1"];
    expect(octaves(everywhere, "F")).toMatchObject([{ severity: "note", measured: 3 }]);
    expect(octaves(everywhere, "C")).toMatchObject([{ severity: "note", measured: 3 }]);
    expect(octaves(everywhere, "Bb")).toMatchObject([{ severity: "look", measured: 3 }]);
  });
});
