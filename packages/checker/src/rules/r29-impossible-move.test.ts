/**
 * R29: moves of the hand at and beside the time they take. Ways by p(n) = L(1 - 2^(-n/12)), the
 * fret rule (Koch, Building Electric Guitars); the time is of the form of Fitts' law, its
 * constants are ours.
 */
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";
import type { SmallFill } from "../test-support/small-playing.ts";

function moves(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections, tempo: 104, ...more })).filter(({ rule }) => rule === "R29");
}
const sixteenths = { lower: "DUDUDUDUDUDUDUDU" };
const eighths = { lower: "D.DU.UDU" };
const quarters = { lower: "D.D.D.D." };
const twoFrets = bars(["N.C.", "-", "x-x-1-1-x-x"], ["N.C.", "-", "x-x-3-4-x-x"]);
const far = bars(["N.C.", "-", "x-x-13-14-x-x"], ["N.C.", "-", "x-x-3-3-x-x"]);
/** A fill of the lower lane's second half of bar 1: notes on beats counted from there. */
const filled = (...notes: NonNullable<SmallFill["notes"]>): Partial<SmallBoard> => ({
  fills: { lower: [{ bar: 1, beat: 3, beats: 2, notes }] },
});

describe("R29", () => {
  test("R29 239 mm in a sixteenth at 104 is a stop: the move takes 0.488 s", () => {
    const [finding] = moves(far, { strums: sixteenths });
    expect(finding).toMatchObject({ severity: "stop", lanes: ["lower"], threshold: 0.6 });
    expect(finding?.measured).toBeCloseTo(0.14423 / 0.48818, 4);
    expect(finding?.words).toBe(
      "No hand goes 24 cm in 0.14 s: the lower lane could let go earlier or stay nearer.",
    );
  });

  test("R29 66.7 mm is a stop in a sixteenth, a look in an eighth, nothing in a quarter", () => {
    const [stop] = moves(twoFrets, { strums: sixteenths });
    expect(stop).toMatchObject({ severity: "stop" });
    expect(stop?.measured).toBeCloseTo(0.444, 3);
    const [look] = moves(twoFrets, { strums: eighths });
    expect(look).toMatchObject({ severity: "look", threshold: 1 });
    expect(look?.measured).toBeCloseTo(0.889, 3);
    expect(moves(twoFrets, { strums: quarters })).toEqual([]);
  });

  test("R29 the tempo decides on both sides of each limit", () => {
    // 0.3246 s are needed: an eighth lasts that long at 92.4, and 0.6 of it at 154.0.
    const at = (tempo: number) => moves(twoFrets, { strums: eighths, tempo })[0]?.severity;
    expect([at(92), at(93), at(153), at(155)]).toEqual([undefined, "look", "look", "stop"]);
  });

  test("R29 its place runs from the last stroke to the first of the next grip", () => {
    expect(moves(twoFrets, { strums: eighths })[0]).toMatchObject({
      slots: ["s1", "s2"],
      spans: [
        { bar: "b1", start: 168, end: 192 },
        { bar: "b2", start: 0, end: 0 },
      ],
      id: "R29:lower:s1@168",
    });
  });

  test("R29 neighbouring frets and open grips are no move", () => {
    const lean = bars(["N.C.", "-", "x-x-1-1-x-x"], ["N.C.", "-", "x-x-2-2-x-x"]);
    expect(moves(lean, { strums: sixteenths })).toEqual([]);
    const open = bars(["N.C.", "-", "x-x-13-13-x-x"], ["N.C.", "-", "x-x-0-0-x-x"]);
    expect(moves(open, { strums: sixteenths })).toEqual([]);
  });

  test("R29 a grip that slides along its strings as it is may be tight, not impossible", () => {
    const slide = bars(["N.C.", "-", "x-7-9-9-x-x"], ["N.C.", "-", "x-10-12-12-x-x"]);
    expect(moves(slide, { strums: eighths, tempo: 116 })).toEqual([]);
    expect(moves(slide, { strums: sixteenths, tempo: 150 })).toMatchObject([{ severity: "stop" }]);
    const other = bars(["N.C.", "-", "x-7-9-9-x-x"], ["N.C.", "-", "x-10-12-13-x-x"]);
    expect(moves(other, { strums: eighths, tempo: 116 })).toMatchObject([{ severity: "look" }]);
    const strings = bars(["N.C.", "-", "x-7-9-9-x-x"], ["N.C.", "-", "10-12-12-x-x-x"]);
    expect(moves(strings, { strums: eighths, tempo: 116 })).toMatchObject([{ severity: "look" }]);
  });

  test("R29 one stopped string is taken by whichever finger is near", () => {
    // G and C at the nut: the third fret alone, then frets 1 and 2.
    const open = bars(["G", "-", "x-x-0-0-0-3"], ["C", "-", "x-x-2-0-1-0"]);
    expect(moves(open, { strums: sixteenths })).toEqual([]);
    const two = bars(["N.C.", "-", "x-x-0-0-3-3"], ["C", "-", "x-x-2-0-1-0"]);
    expect(moves(two, { strums: eighths })).toMatchObject([{ severity: "look" }]);
  });

  test("R29 a rest gives the hand time, and so does a bar without an attack", () => {
    const rest = { lower: { 1: "D.......", 2: "D.D.D.D." } };
    expect(moves(far, { strums: rest })).toEqual([]);
    expect(moves(far, { strums: sixteenths, layOuts: { lower: [2] } })).toEqual([]);
  });

  test("R29 a fill that ends late up the neck is a stop, one that ends on beat 4 is not", () => {
    const late = moves(far, filled([0, "3:13"], [1.75, "3:13"]));
    expect(late).toMatchObject([{ severity: "stop", spans: [{ start: 180 }, { end: 0 }] }]);
    expect(late[0]?.words).toContain("end the fill earlier");
    expect(moves(far, filled([0, "3:13"], [1, "3:13"]))).toEqual([]);
  });

  test("R29 an open string and a slide bridge the way of a fill", () => {
    expect(moves(far, filled([1.5, "3:13"], [1.75, "3:0"]))).toEqual([]);
    const jump = filled([0, "3:13"], [0.25, "3:3"]);
    expect(moves(far, jump)).toMatchObject([{ severity: "stop" }]);
    const slide = filled([0, "3:13"], [0.25, "3:3", { way: "slide" }]);
    expect(moves(far, slide)).toEqual([]);
  });

  test("R29 a note that has to ring on holds the hand: tight at most", () => {
    const held = (letRing: boolean) => moves(far, filled([0, "3:13"], [1, "3:13", { letRing }]));
    expect(held(false)).toEqual([]);
    const [finding] = held(true);
    expect(finding).toMatchObject({ severity: "look" });
    expect(finding?.measured).toBeCloseTo(0.28846 / 0.48818, 3);
  });

  test("R29 counts frets from the nut", () => {
    const capo = bars(["N.C.", "-", "x-x-1-1-x-x"], ["N.C.", "-", "x-x-3-3-x-x"]);
    const [finding] = moves(capo, { strums: sixteenths, capo: { lower: 4 } });
    // 5 to 7: 52.96 mm, 0.2977 s.
    expect(finding?.measured).toBeCloseTo(0.14423 / 0.2977, 3);
  });

  test("R29 looks over the seam into each section that follows, once", () => {
    const [a, b] = [far[0]?.slice(0, 1) ?? [], far[0]?.slice(1) ?? []];
    const on = [...b, ...bars(["N.C.", "-", "x-x-0-0-x-x"]).flat()];
    const seams = moves([a, on, on], { form: [0, 1, 0, 2], strums: sixteenths });
    expect(seams).toMatchObject([
      { severity: "stop", slots: ["s1"], spans: [{ bar: "b1", start: 180, end: 192 }] },
    ]);
    expect(seams[0]?.notes.every(({ slot }) => slot === "s1")).toBe(true);
  });

  test("R29 of the ways on over a seam the gravest is told, whichever comes first", () => {
    const sections = [
      ...bars(["C7", "-", "x-x-2-3-1-x"]),
      ...bars(["C7", "x-x-9-9-9-x", "x-x-2-3-1-x"]),
      ...bars(["F7", "x-x-x-14-13-15", "x-x-3-2-4-x"]),
    ];
    const rings = [
      { bar: 1, beat: 4, beats: 1, notes: [[0.5, "3:2", { letRing: true, length: ticks(96) }]] },
    ] as const;
    const seams = (form: readonly number[]) =>
      moves(sections, {
        ...{ tempo: 120, form, fills: { upper: rings } },
        strums: { upper: { 2: "..D.....", 3: "D......." } },
      }).map(({ severity }) => severity);
    expect(seams([0, 1])).toEqual(["look"]);
    expect(seams([0, 2])).toEqual(["stop"]);
    expect(seams([0, 1, 0, 2])).toEqual(["stop"]);
  });

  test("R29 the way is a look too where it is faster than the band allows", () => {
    const slow = { moveSpeed: 0.2 };
    expect(moves(far, { strums: quarters })).toEqual([]);
    expect(moves(far, { strums: quarters, limits: slow })).toMatchObject([
      { severity: "look", threshold: 0.2 },
    ]);
  });
});
