/** R36: what changed under a grip, and whether the grip still does. */
import { slotId } from "@halflap/board/ids";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** The chart's chord over a grip of the lower lane that was chosen for another. */
function stale(chord: string, grip: string, chosenFor: string, more: Partial<SmallBoard> = {}) {
  const board = smallBoard({
    ...{ sections: bars([chord, "-", grip]), key: "F" },
    laneMore: { lower: { chosenFor: new Map([[slotId("s1"), chosenFor]]) } },
    ...more,
  });
  return check(board).filter(({ rule }) => rule === "R36" || rule === "R13");
}

const f7 = "x-x-3-2-4-x";

// Common practice, no source.
describe("R36", () => {
  test("R36 a grip with tones that the new chord has not is a stop, and names them", () => {
    expect(stale("C7", f7, "F7")).toMatchObject([
      {
        ...{ rule: "R36", severity: "stop", lanes: ["lower"], measured: 2, threshold: 1 },
        notes: [{ pitch: 53 }, { pitch: 63 }],
        words: "The lower lane's grip was chosen for F7; the chart now says C7, without F and E♭.",
      },
    ]);
  });

  test("R36 a grip whose tones all fit is a look", () => {
    expect(stale("Am7b5/Eb", f7, "F7")).toHaveLength(1);
    expect(stale("F9", f7, "F7")).toMatchObject([
      {
        ...{ severity: "look", measured: 0 },
        words:
          "The lower lane's grip was chosen for F7; the chart now says F9: see whether it " +
          "still does.",
      },
    ]);
  });

  test.each([
    ["F7", "F7"],
    ["Bbm7", "A#m7"],
    ["Cmaj7", "CM7"],
    ["Gm7b5", "Gø"],
    ["N.C.", "NC"],
  ])("R36 %s is %s in another spelling", (now, before) => {
    expect(stale(now, "x-x-x-x-x-1", before).filter(({ rule }) => rule === "R36")).toEqual([]);
  });

  test.each([
    ["F7/C", "F7"],
    ["Am7", "C6"],
    ["Fm7", "F7"],
    ["N.C.", "F7"],
    ["F7", "N.C."],
    ["what", "F7"],
    ["F7", "what"],
  ])("R36 %s is another than %s", (now, before) => {
    expect(stale(now, f7, before).filter(({ rule }) => rule === "R36")).toHaveLength(1);
  });

  test("R36 not where it is not known what a grip was chosen for, nor where the lane rests", () => {
    expect(stale("F7", f7, "F7")).toEqual([]);
    expect(stale("C7", f7, "F7", { laneMore: {} })).toMatchObject([{ rule: "R13" }]);
    expect(stale("C7", f7, "F7", { layOuts: { lower: [1] } })).toEqual([]);
  });

  test("R36 in several passes is one finding", () => {
    expect(stale("C7", f7, "F7", { form: [0, 0] })).toHaveLength(1);
  });
});
