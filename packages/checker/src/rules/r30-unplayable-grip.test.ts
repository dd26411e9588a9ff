/**
 * R30: grips at and beside what a hand can do. Distances by p(n) = L(1 - 2^(-n/12)), the fret rule
 * (Koch, Building Electric Guitars); that frets 1 to 5 are too far is common practice, no source.
 */
import { slotId } from "@halflap/board/ids";
import { gripOf } from "@halflap/theory/grip";
import { defaultSetup } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function unplayable(grip: string, more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars(["N.C.", "-", grip]), ...more });
  return check(board).filter(({ rule }) => rule === "R30");
}

describe("R30", () => {
  test("R30 frets 1 to 4 are held, 1 to 5 are a look, 1 to 6 a stop", () => {
    expect(unplayable("1-x-x-x-4-x")).toEqual([]);
    const [look] = unplayable("1-x-x-x-5-x");
    expect(look).toMatchObject({ severity: "look", lanes: ["lower"], threshold: 97.5 });
    expect(look?.measured).toBeCloseTo(126.18, 2);
    expect(look?.words).toBe(
      "The lower lane's grip stretches 126 mm, which is hard to hold: leave it if it hurts.",
    );
    const [stop] = unplayable("1-x-x-x-6-x");
    expect(stop).toMatchObject({ severity: "stop", threshold: 126.5 });
    expect(stop?.words).toContain("don't force the hand");
  });

  test("R30 the same frets lie nearer up the neck, and open strings stretch nothing", () => {
    expect(unplayable("x-8-x-x-12-x")).toEqual([]);
    expect(unplayable("0-x-x-x-x-12")).toEqual([]);
  });

  test("R30 five fingers are a stop, four are not, and a barre is one", () => {
    expect(unplayable("x-9-10-11-12-x")).toEqual([]);
    expect(unplayable("9-10-11-12-13-x")).toMatchObject([
      {
        severity: "stop",
        measured: 5,
        threshold: 4,
        words: "The lower lane's grip needs five fingers.",
      },
    ]);
    expect(unplayable("1-3-3-2-1-1")).toEqual([]);
  });

  test("R30 measures from the capo, whose fret needs no finger", () => {
    expect(unplayable("1-x-x-x-5-x", { capo: { lower: 5 } })).toEqual([]);
    expect(unplayable("0-x-x-x-5-x", { capo: { lower: 1 } })).toEqual([]);
  });

  test("R30 a fret beyond the neck is a stop", () => {
    const setup = { ...defaultSetup, lastFret: fret(12) };
    const beyond = (last: number) => {
      const frets = [undefined, undefined, undefined, undefined, undefined, fret(last)];
      const grips = new Map([[slotId("s1"), gripOf(frets)]]);
      return unplayable("-", { laneMore: { lower: { setup, grips } } });
    };
    expect(beyond(13)).toMatchObject([{ severity: "stop", measured: 1, notes: [] }]);
    expect(beyond(12)).toEqual([]);
  });

  test("R30 judges each part for itself, and none that rests", () => {
    const sections = bars(["N.C.", "1-x-x-x-6-x", "1-x-x-x-5-x"]);
    const found = (more: Partial<SmallBoard>) =>
      check(smallBoard({ sections, ...more })).filter(({ rule }) => rule === "R30");
    expect(found({}).map(({ lanes }) => lanes)).toEqual([["upper"], ["lower"]]);
    expect(found({ layOuts: { upper: [1] } }).map(({ lanes }) => lanes)).toEqual([["lower"]]);
  });

  test("R30 goes by the band's own limits", () => {
    expect(unplayable("1-x-x-x-5-x", { limits: { stretchLook: 127 } })).toEqual([]);
    expect(unplayable("9-10-11-12-13-x", { limits: { fingers: 5 } })).toEqual([]);
  });
});
