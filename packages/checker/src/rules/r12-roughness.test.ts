/**
 * R12: which slots are told to be the roughest of the tune.
 * Plomp & Levelt, JASA 38, 1965, as parametrised by Sethares; how much is too much is ours.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const thin: Played = ["C", "x-x-x-x-8-8", "x-x-5-5-5-x"];
/** The same chord on eleven strings, where no interval is muddy and nothing rubs. */
const thick: Played = ["C", "x-3-2-0-1-0", "x-3-2-0-1-3"];

function rough(played: readonly Played[], more: Partial<SmallBoard> = {}) {
  const board = smallBoard({ sections: bars(...played), ...more });
  return check(board).filter(({ rule }) => rule === "R12");
}

describe("R12", () => {
  test("R12 a slot far rougher than the middle one is a note", () => {
    const found = rough([thin, thin, thick, thin]);
    expect(found).toMatchObject([
      { severity: "note", bars: ["b3"], lanes: ["upper", "lower"], threshold: 1.5 },
    ]);
    expect(found[0]?.words).toContain("most of all C3 against ");
    expect(new Set(found[0]?.notes.map(({ lane }) => lane)).size).toBe(2);
  });

  test("R12 at the limit it is nothing, just above it a note", () => {
    const fuller: Played = ["C", "x-x-x-5-8-8", "x-x-5-5-5-3"];
    const played = [thin, thin, fuller];
    const near = rough(played, { limits: { roughness: 1 } })[0]?.measured ?? 0;
    expect(near).toBeGreaterThan(1);
    expect(rough(played, { limits: { roughness: near } })).toEqual([]);
    expect(rough(played, { limits: { roughness: near - 1e-6 } })).toHaveLength(1);
  });

  test("R12 a tune that is rough throughout has no roughest sound", () => {
    expect(rough([thick, thick, thick])).toEqual([]);
    expect(rough([thick])).toEqual([]);
  });

  test("R12 compares only slots in which both play", () => {
    const alone: Played = ["C", "-", "x-x-x-5-x-x"];
    expect(rough([alone, alone, alone, thin])).toEqual([]);
  });

  test("R12 is silent where mud, a rub or a forgotten capo is told", () => {
    const muddy: Played = ["G", "3-2-0-0-0-3", "3-2-0-0-0-3"];
    const rubbing: Played = ["C", "x-3-2-0-1-1", "x-3-2-0-1-0"];
    const shape: Played = ["F7", "1-3-1-2-1-1", "1-3-1-2-1-1"];
    expect(rough([thin, thin, thin, muddy])).toEqual([]);
    expect(rough([thin, thin, thin, rubbing])).toEqual([]);
    expect(rough([thin, thin, thin, shape], { capo: { upper: 3 } })).toEqual([]);
  });

  test("R12 rough slots in a row are one finding", () => {
    const found = rough([thin, thin, thin, thick, thick]);
    expect(found.map(({ bars }) => bars)).toEqual([["b4", "b5"]]);
  });
});
