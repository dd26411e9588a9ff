/**
 * R03: parts that are one sound, at and beside its limit, and where that is meant.
 * Huron, Tone and Voice, Music Perception 19(1), 2001: voices that share their pitches are heard
 * as one. Limit ours.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** What is found in one bar that is played twice, so that it is not the end of the form. */
function found(played: Played, more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections: bars(played), form: [0, 0], ...more }));
}
function sames(played: Played, more: Partial<SmallBoard> = {}) {
  return found(played, more).filter(({ rule }) => rule === "R03");
}

describe("R03", () => {
  test("R03 the same notes are a fix of both lanes that names every note of both", () => {
    const [finding, ...more] = sames(["C", "x-3-2-0-x-x", "x-3-2-0-x-x"]);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      ...{ severity: "fix", lanes: ["upper", "lower"], slots: ["s1"] },
      ...{ measured: 1, threshold: 0.8 },
      words: "You both play exactly the same notes: it sounds like one guitar.",
    });
    // C3 E3 G3 in each.
    const each = (lane: string) => [48, 52, 55].map((pitch) => ({ lane, slot: "s1", pitch }));
    expect(finding?.notes).toEqual([...each("upper"), ...each("lower")]);
  });

  test("R03 says it instead of R02 and R04", () => {
    const rules = found(["C7", "x-3-2-3-1-0", "x-3-2-3-1-0"]).map(({ rule }) => rule);
    expect(rules).toContain("R03");
    expect(rules).not.toContain("R02");
    expect(rules).not.toContain("R04");
  });

  test("R03 four of five pitches are enough, three of four are left to R02", () => {
    expect(sames(["C", "x-3-2-0-1-0", "x-3-2-0-1-x"])).toMatchObject([
      { severity: "fix", measured: 0.8, threshold: 0.8 },
    ]);
    const below = ["C", "x-3-2-0-1-x", "x-3-2-0-x-x"] as const;
    expect(sames(below)).toEqual([]);
    expect(found(below).map(({ rule }) => rule)).toContain("R02");
  });

  test("R03 a note that is missing weighs as much in either lane", () => {
    const [more, less] = ["x-3-2-0-1-0", "x-3-2-0-1-x"];
    expect(sames(["C", less, more])[0]?.words).toBe(sames(["C", more, less])[0]?.words);
    // E4 above alone, E3 below alone: three of five.
    expect(sames(["C", "x-3-x-0-1-0", "x-3-2-0-1-x"])).toEqual([]);
  });

  test("R03 names what one part alone plays", () => {
    expect(sames(["C", "x-3-2-0-1-0", "x-3-2-0-1-x"])[0]?.words).toBe(
      "You both play one and the same sound: only E4 is not doubled.",
    );
  });

  test("R03 a pitch on two strings counts once", () => {
    // G3 on the 4th string and on the open 3rd: three pitches of three, on five strings and three.
    expect(sames(["C", "x-3-5-0-1-x", "x-3-x-0-1-x"])).toMatchObject([{ measured: 1 }]);
  });

  test("R03 an octave apart is another sound", () => {
    expect(sames(["C", "x-15-14-12-13-12", "x-3-2-0-1-0"])).toEqual([]);
  });

  test("R03 finds shapes that sound alike, not equal frets under another capo", () => {
    // A7 open, and the barre that is held for it with the capo on 3: five pitches shared, no fret.
    const [finding] = sames(["A7", "2-4-2-3-2-2", "x-0-2-0-2-0"], { capo: { upper: 3 } });
    expect(finding).toMatchObject({ measured: 5 / 6 });
    expect(finding?.words).toContain("only A4 is not doubled");
    expect(sames(["C", "x-3-2-0-1-0", "x-3-2-0-1-0"], { capo: { upper: 1 } })).toEqual([]);
  });

  test("R03 needs both lanes to sound", () => {
    expect(sames(["C", "x-3-2-0-1-0", "-"])).toEqual([]);
    const same = ["C", "x-3-2-0-1-0", "x-3-2-0-1-0"] as const;
    expect(sames(same, { layOuts: { lower: [1] } })).toEqual([]);
  });

  test("R03 is silent where a unison is meant, and only there", () => {
    const same = ["C", "x-3-2-0-1-0", "x-3-2-0-1-0"] as const;
    expect(sames(same, { aims: { 1: ["unison"] } })).toEqual([]);
    expect(sames(same, { aims: { 1: ["lock"] } })).toHaveLength(1);
  });

  test("R03 the limit is the board's own where it has one", () => {
    const below = ["C", "x-3-2-0-1-x", "x-3-2-0-x-x"] as const;
    expect(sames(below, { limits: { sameSound: 0.75 } })).toMatchObject([{ threshold: 0.75 }]);
    const four = ["C", "x-3-2-0-1-0", "x-3-2-0-1-x"] as const;
    expect(sames(four, { limits: { sameSound: 0.81 } })).toEqual([]);
  });
});
