/** R09: low notes beside a bass player. The lines at E3 and A2 are common practice, no source. */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** One note below E3: D3 or C3. */
const d3 = "x-x-0-x-x-x";
const c3 = "x-3-x-x-x-x";
/** Two below: C3 and D3. */
const two = "x-3-0-x-x-x";
/** None: E3 itself. */
const e3 = "x-x-2-x-x-x";

function low(chord: string, upper: string, lower: string, more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars([chord, upper, lower]), ...more });
  return check(board).filter(({ rule }) => rule === "R09");
}

describe("R09", () => {
  test("R09 two low notes in one part are a look, one is nothing", () => {
    expect(low("C", "-", two)).toMatchObject([
      {
        severity: "look",
        lanes: ["lower"],
        measured: 2,
        threshold: 2,
        words: "The lower lane is down in the cellar, where the bass plays.",
      },
    ]);
    expect(low("C", "-", c3)).toEqual([]);
  });

  test("R09 E3 is not low, E♭3 is", () => {
    expect(low("C", "-", "x-3-2-x-x-x")).toEqual([]);
    expect(low("Cm", "-", "x-3-1-x-x-x")).toHaveLength(1);
  });

  test("R09 a low note in each part is a look, two in each a fix", () => {
    expect(low("C", d3, c3)).toMatchObject([
      { severity: "look", lanes: ["upper", "lower"], measured: 2, threshold: 2 },
    ]);
    expect(low("C", two, d3)).toMatchObject([{ severity: "look", measured: 3 }]);
    expect(low("C", two, two)).toMatchObject([{ severity: "fix", measured: 4, threshold: 4 }]);
    expect(low("C", e3, c3)).toEqual([]);
  });

  test("R09 a note below A2 that is not the bass note is a fix", () => {
    expect(low("C", "-", "4-x-x-x-x-x")).toMatchObject([
      {
        severity: "fix",
        lanes: ["lower"],
        words: "The lower lane's low A♭ puts another bass under C: it wants C.",
      },
    ]);
    expect(low("C", "-", "x-0-x-x-x-x")).toEqual([]);
    expect(low("Ab", "-", "4-x-x-x-x-x")).toEqual([]);
    expect(low("C/G", "-", "3-x-x-x-x-x")).toEqual([]);
    expect(low("C", "-", "3-x-x-x-x-x")).toHaveLength(1);
  });

  test("R09 without a chord there is no bass note to miss", () => {
    expect(low("N.C.", "-", "3-x-x-x-x-x")).toEqual([]);
    expect(low("N.C.", "-", two)).toHaveLength(1);
  });

  test("R09 not without a bass player, nor for a riff in unison", () => {
    expect(low("C", two, two, { hasBass: false })).toEqual([]);
    expect(low("C", two, two, { aims: { 1: ["unison"] } })).toEqual([]);
  });

  test("R09 goes by the band's own lines", () => {
    expect(low("C", "-", two, { limits: { bassZone: 48 } })).toEqual([]);
    expect(low("C", "-", "3-x-x-x-x-x", { limits: { bassFloor: 43 } })).toEqual([]);
  });
});
