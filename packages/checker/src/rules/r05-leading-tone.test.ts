/**
 * R05: leading tones in both parts, and dominants that lead nowhere.
 * Georgetown College part-writing guidelines: do not double the leading tone; Huron, ASA 125th
 * Meeting, 1993.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** B4 above, B3 below. */
const g7: Played = ["G7", "x-x-x-x-8-7", "x-x-3-4-3-x"];
/** C5 above; C4 below or not. */
const cWithC4: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-1-x"];
const cWithoutC4: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];

function leading(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections, ...more })).filter(({ rule }) => rule === "R05");
}

describe("R05", () => {
  test("R05 the 3rd of G7 in both parts before C is a look", () => {
    const found = leading(bars(g7, cWithoutC4));
    expect(found).toMatchObject([{ severity: "look", measured: 2, threshold: 2, bars: ["b1"] }]);
    expect(found[0]?.words).toBe("B wants to move up to C, and it is in both parts.");
    expect(found[0]?.notes.map(({ lane, pitch }) => [lane, pitch])).toEqual([
      ["upper", 71],
      ["lower", 59],
    ]);
  });

  test("R05 both stepping up with it is a fix", () => {
    expect(leading(bars(g7, cWithC4))).toMatchObject([{ severity: "fix" }]);
  });

  test("R05 not when one part has it alone, however often", () => {
    expect(leading(bars(["G7", "x-x-x-x-8-10", "3-2-0-0-0-1"], cWithC4))).toEqual([]);
  });

  test("R05 not when the next root does not lie a fifth below", () => {
    expect(leading(bars(g7, ["Am", "-", "-"]))).toEqual([]);
    expect(leading(bars(g7))).toEqual([]);
  });

  test("R05 holds for secondary dominants, spelled by the chord", () => {
    const d7: Played = ["D7", "x-x-x-11-x-10", "x-x-4-5-3-x"];
    const found = leading(bars(d7, ["Gm7", "-", "-"]), { key: "F" });
    expect(found[0]?.words).toBe("F♯ wants to move up to G, and it is in both parts.");
  });

  test("R05 looks past more of the same root; only the last slot before the goal moves", () => {
    const found = leading(bars(g7, g7, cWithC4));
    expect(found.map(({ severity, bars }) => [severity, bars])).toEqual([
      ["look", ["b1"]],
      ["fix", ["b2"]],
    ]);
  });

  test("R05 looks past N.C.", () => {
    expect(leading(bars(g7, ["N.C.", "-", "-"], cWithC4))).toMatchObject([{ severity: "look" }]);
  });

  test("R05 looks across the seam of sections as the form goes, on any pass", () => {
    const sections = [...bars(g7), ...bars(cWithC4)];
    expect(leading(sections, { form: [0, 1] })).toHaveLength(1);
    expect(leading(sections, { form: [0, 0, 1] })).toHaveLength(1);
    expect(leading(sections, { form: [1, 0] })).toEqual([]);
  });

  test("R05 not for a dominant at rest on I or IV of a blues", () => {
    const c7: Played = ["C7", "x-x-x-9-8-x", "x-3-2-3-x-x"];
    expect(leading(bars(c7, ["F7", "-", "-"]))).toEqual([]);
    expect(leading(bars(c7, ["F", "-", "-"]))).toHaveLength(1);
    expect(leading(bars(c7, ["F7", "-", "-"]), { key: "F" })).toHaveLength(1);
  });

  test("R05 the root of a diminished chord that rises to the next root or bass", () => {
    const b: Played = ["Bdim7", "x-x-x-x-12-10", "x-2-3-1-3-x"];
    expect(leading(bars(b, ["C", "-", "-"]))).toHaveLength(1);
    expect(leading(bars(b, ["F7/C", "-", "-"]))).toHaveLength(1);
    expect(leading(bars(b, ["Am", "-", "-"]))).toEqual([]);
  });
});
