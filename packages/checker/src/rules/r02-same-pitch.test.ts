/**
 * R02: pitches in both parts.
 * Huron, Tone and Voice, Music Perception 19(1), 2001: unisons are ranked worse than octaves.
 * Limits ours.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";

function doublings(...played: readonly Played[]) {
  return check(smallBoard({ sections: bars(...played), form: [0, 0] })).filter(
    ({ rule }) => rule === "R02" || rule === "R03",
  );
}

describe("R02", () => {
  test("R02 one shared pitch is a note", () => {
    const found = doublings(["C", "x-x-x-5-8-8", "x-3-2-0-1-x"]);
    expect(found).toMatchObject([
      { rule: "R02", severity: "note", measured: 1, threshold: 1, words: "You both play C4." },
    ]);
    expect(found[0]?.notes).toEqual([
      { lane: "upper", slot: "s1", pitch: 60 },
      { lane: "lower", slot: "s1", pitch: 60 },
    ]);
  });

  test("R02 two shared pitches, half of the smaller grip, are a look", () => {
    // Upper C4 E4 G4 C5, lower C3 E3 G3 C4 E4.
    const found = doublings(["C", "x-x-10-9-8-8", "x-3-2-0-1-0"]);
    expect(found).toMatchObject([{ rule: "R02", severity: "look", measured: 0.5, threshold: 0.5 }]);
  });

  test("R02 two shared pitches below half stay a note", () => {
    // Upper C4 E4 G4 C5 E5, lower C3 E3 G3 C4 E4: two of five.
    const found = doublings(["C", "x-15-14-12-13-12", "x-3-2-0-1-0"]);
    expect(found).toMatchObject([{ rule: "R02", severity: "note", measured: 2 }]);
  });

  test("R02 three of four is a fix, two of three only a look", () => {
    const three = doublings(["C", "x-x-5-5-5-3", "x-3-x-0-1-3"]);
    expect(three).toMatchObject([{ rule: "R02", severity: "fix", measured: 0.75 }]);
    const two = doublings(["C", "x-x-x-0-1-3", "x-3-2-0-1-x"]);
    expect(two).toMatchObject([{ rule: "R02", severity: "look", measured: 2 / 3 }]);
    expect(two[0]?.words).toBe("Two notes are the very same in both parts: G3 and C4.");
  });

  test("R02 says when a grip is wholly inside the other", () => {
    const [finding] = doublings(["C", "x-x-x-0-1-x", "x-3-2-0-1-x"]);
    expect(finding).toMatchObject({ severity: "fix", measured: 1 });
    expect(finding?.words).toBe("One grip is wholly inside the other: you both play G3 and C4.");
  });

  test("R02 compares what sounds, capo included", () => {
    // Equal frets, but the capo lifts every note of one part by a semitone.
    const board = smallBoard({
      sections: bars(["C", "x-3-2-0-1-0", "x-3-2-0-1-0"]),
      capo: { upper: 1 },
      form: [0, 0],
    });
    expect(check(board).filter(({ rule }) => rule === "R02" || rule === "R03")).toEqual([]);
  });

  test("R02 not where the unison is meant, a drone or a riff", () => {
    const board = smallBoard({
      sections: bars(["C", "x-x-x-0-1-x", "x-3-2-0-1-0"]),
      form: [0, 0],
      aims: { 1: ["unison"] },
    });
    expect(check(board).filter(({ rule }) => rule === "R02" || rule === "R03")).toEqual([]);
  });

  test("R02 nothing shared raises nothing", () => {
    expect(doublings(["C", "x-x-x-12-13-12", "x-3-2-0-1-x"])).toEqual([]);
  });
});
