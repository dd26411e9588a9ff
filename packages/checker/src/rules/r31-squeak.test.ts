/** R31: quiet shifts along the wound strings. Common practice, no source. */
import { slotId } from "@halflap/board/ids";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function squeaks(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  const dynamics = { lower: { 1: "p" } } as const;
  return check(smallBoard({ sections, dynamics, ...more })).filter(({ rule }) => rule === "R31");
}
const shift = bars(["N.C.", "-", "1-3-3-x-x-x"], ["N.C.", "-", "3-5-5-x-x-x"]);

describe("R31", () => {
  test("R31 two frets on wound strings are a note when it is soft, one is nothing", () => {
    expect(squeaks(shift)).toMatchObject([
      { severity: "note", lanes: ["lower"], slots: ["s2"], measured: 2, threshold: 2 },
    ]);
    expect(squeaks(shift)[0]?.notes).toHaveLength(3);
    const one = bars(["N.C.", "-", "1-3-3-x-x-x"], ["N.C.", "-", "2-4-4-x-x-x"]);
    expect(squeaks(one)).toEqual([]);
  });

  test("R31 a grip that is pushed over the bar line squeaks too", () => {
    expect(squeaks(shift, { strums: { lower: "D.DU.UD~U" } })).toMatchObject([
      { slots: ["s2"], measured: 2 },
    ]);
  });

  test("R31 is for p and pp, not for mp, nor where nobody wrote how loud", () => {
    expect(squeaks(shift, { dynamics: { lower: { 1: "pp" } } })).toHaveLength(1);
    expect(squeaks(shift, { dynamics: { lower: { 1: "mp" } } })).toEqual([]);
    expect(squeaks(shift, { dynamics: {} })).toEqual([]);
    expect(squeaks(shift, { dynamics: { upper: { 1: "p" } } })).toEqual([]);
  });

  test("R31 plain strings do not squeak, nor a finger that lifts for another string", () => {
    const plain = bars(["N.C.", "-", "x-x-x-2-2-2"], ["N.C.", "-", "x-x-x-5-5-5"]);
    expect(squeaks(plain)).toEqual([]);
    const other = bars(["N.C.", "-", "1-x-x-x-x-x"], ["N.C.", "-", "x-4-x-x-x-x"]);
    expect(squeaks(other)).toEqual([]);
    const open = bars(["N.C.", "-", "0-3-x-x-x-x"], ["N.C.", "-", "5-0-x-x-x-x"]);
    expect(squeaks(open)).toEqual([]);
  });

  test("R31 a gap lets the fingers lift: a choke, a ghost, a short note", () => {
    expect(squeaks(shift, { strums: { lower: "D.D.D.D." } })).toHaveLength(1);
    expect(squeaks(shift, { strums: { lower: "D.D.D.Dx" } })).toEqual([]);
    expect(squeaks(shift, { strums: { lower: "D.D.D.Dd" } })).toEqual([]);
    const fill = (beats: number) => ({
      lower: [{ bar: 1, beat: 4, beats: 1, notes: [[beats, "6:13"]] as const }],
    });
    // Written half a beat long: on the last eighth it lasts up to the bar line.
    const into = (beats: number) =>
      squeaks(shift, { fills: fill(beats) }).filter(({ slots }) => slots.includes(slotId("s2")));
    expect(into(0)).toEqual([]);
    // The shifts into the fill and out of it say the same, so they are one note.
    expect(into(0.5)).toMatchObject([{ slots: ["s1", "s2"], measured: 12 }]);
  });

  test("R31 counts at a seam as well, where the next section is soft", () => {
    const [a, b] = [shift[0]?.slice(0, 1) ?? [], shift[0]?.slice(1) ?? []];
    expect(squeaks([a, b], { dynamics: { lower: { 2: "p" } } })).toMatchObject([{ slots: ["s1"] }]);
  });
});
