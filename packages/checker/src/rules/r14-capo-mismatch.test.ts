/**
 * R14: forgotten capos, and what only looks like one.
 * MusicXML 4.0, capo: raises the open strings by that many semitones.
 */
import { slotId } from "@halflap/board/ids";
import { gripOf } from "@halflap/theory/grip";
import { defaultSetup } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function mismatches(chord: string, upper: string, more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars([chord, upper, "-"]), key: "F", ...more });
  return check(board).filter(({ rule }) => ["R08", "R13", "R14"].includes(rule));
}

/** The upper lane counts its frets from the nut, the capo on 3. */
function fromNut(frets: readonly (number | undefined)[], layOuts: readonly number[] = []) {
  const setup = { ...defaultSetup, capo: fret(3), fretsFrom: "nut" } as const;
  const grip = gripOf(frets.map((one) => (one === undefined ? undefined : fret(one))));
  const grips = new Map([[slotId("s1"), grip]]);
  return mismatches("F7", "-", {
    laneMore: { upper: { setup, grips } },
    layOuts: { upper: layOuts },
  });
}

// MusicXML 4.0, element capo: it raises the open tuning by that many half-steps.
describe("R14", () => {
  test("R14 a grip that is the chord only as a shape is a stop, in place of R13", () => {
    const found = mismatches("F7", "1-3-1-2-1-1", { capo: { upper: 3 } });
    expect(found).toMatchObject([
      {
        rule: "R14",
        severity: "stop",
        lanes: ["upper"],
        measured: 2,
        threshold: 1,
        words: "The upper lane's grip is F7 only as a shape: with the capo on 3 it sounds A♭7.",
      },
    ]);
    expect(found[0]?.notes).toHaveLength(6);
  });

  test("R14 says the notes where the capo makes no chord that has a name", () => {
    const [finding] = mismatches("F9", "x-x-3-2-4-3", { capo: { upper: 1 } });
    expect(finding?.rule).toBe("R14");
    expect(finding?.words).toContain("it sounds G♭, B♭, E and A♭");
  });

  test("R14 not with the capo on another fret, nor without one", () => {
    expect(mismatches("F7", "x-x-0-2-1-2", { capo: { upper: 3 } })).toEqual([]);
    expect(mismatches("F7", "1-3-1-2-1-1")).toEqual([]);
    expect(mismatches("F7", "1-3-1-2-1-1", { capo: { upper: 12 } })).toEqual([]);
  });

  test("R14 not for a grip that is wrong with the capo and without", () => {
    const found = mismatches("F7", "x-x-0-2-3-2", { capo: { upper: 2 } });
    expect(found.map(({ rule }) => rule)).toEqual(["R13"]);
  });

  test("R14 not for a chord that the capo carries into itself", () => {
    expect(mismatches("Bdim7", "x-x-3-4-3-4", { capo: { upper: 3 } })).toEqual([]);
  });

  test("R14 needs every guide tone: a bare fifth is no proof", () => {
    const found = mismatches("F7", "x-x-3-5-x-x", { capo: { upper: 1 } });
    expect(found.map(({ rule }) => rule)).toEqual(["R13"]);
  });

  test("R14 frets between nut and capo are a stop, also where nothing else sounds", () => {
    expect(fromNut([1, 3, 1, 2, 1, 1])).toMatchObject([
      {
        rule: "R14",
        severity: "stop",
        measured: 5,
        words: "The upper lane's frets 1 and 2 lie behind the capo on 3.",
      },
    ]);
    const [none] = fromNut([2, undefined, undefined, undefined, undefined, undefined]);
    expect(none).toMatchObject({ rule: "R14", measured: 1, notes: [] });
    expect(none?.words).toBe("The upper lane's fret 2 lies behind the capo on 3.");
  });

  test("R14 the capo's own fret and the open string are not behind it", () => {
    expect(fromNut([undefined, undefined, 3, 5, 4, 5])).toEqual([]);
    expect(fromNut([undefined, undefined, 0, 5, 4, 5])).toEqual([]);
  });

  test("R14 not where the lane rests", () => {
    expect(fromNut([1, 3, 1, 2, 1, 1], [1])).toEqual([]);
  });
});
