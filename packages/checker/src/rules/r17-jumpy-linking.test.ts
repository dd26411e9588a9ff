/**
 * R17: jumps where a nearer grip of the same chord lies at hand. That dominant sevenths a fifth
 * apart link on one string set with 0, 1 and 1 semitone is common practice, no source.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function jumps(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections, ...more })).filter(({ rule }) => rule === "R17");
}

describe("R17", () => {
  test("R17 a jump past a near grip of the chord is a look that names it", () => {
    const far = bars(["G7", "-", "x-x-5-4-6-x"], ["C7", "-", "x-x-10-9-11-x"]);
    const [finding] = jumps(far);
    expect(finding).toMatchObject({
      severity: "look",
      lanes: ["lower"],
      slots: ["s2"],
      measured: 5,
      threshold: 3,
    });
    expect(finding?.words).toMatch(/^The lower lane jumps into C7: x-x-\d-\d-\d-x on the same/);
    expect(finding?.notes).toHaveLength(3);
  });

  test("R17 three semitones a voice are no jump, more are", () => {
    const by = (frets: number) => {
      const [d, g, b] = [5 + frets, 4 + frets, 6 + frets];
      const chords = ["G7", "Ab7", "A7", "Bb7", "B7"];
      return bars(["G7", "-", "x-x-5-4-6-x"], [chords[frets] ?? "", "-", `x-x-${d}-${g}-${b}-x`]);
    };
    expect(jumps(by(3))).toEqual([]);
    expect(jumps(by(4))).toMatchObject([{ measured: 4 }]);
  });

  test("R17 is silent where no nearer grip is on the same strings", () => {
    const single = bars(["A5", "-", "x-0-2-x-x-x"], ["D5", "-", "x-5-7-x-x-x"]);
    expect(jumps(single)).toEqual([]);
  });

  test("R17 with other strings the lowest and the highest voice count", () => {
    const wider = bars(["G7", "-", "x-x-5-4-6-x"], ["C7", "-", "x-x-10-9-11-8"]);
    const [finding] = jumps(wider);
    expect(finding?.measured ?? 0).toBeGreaterThan(3);
  });

  test("R17 low down, and without a bass player, the bass stays lowest", () => {
    const low = bars(["D7", "-", "x-5-4-5-3-5"], ["Gm7", "-", "3-5-3-3-3-3"]);
    expect(jumps(low)).toEqual([]);
    const high = bars(["G7", "-", "x-x-5-4-6-x"], ["C7", "-", "x-x-10-9-11-x"]);
    expect(jumps(high, { hasBass: false })).toEqual([]);
  });

  test("R17 is silent at the start of a section and after a fill", () => {
    const far = bars(["G7", "-", "x-x-5-4-6-x"], ["C7", "-", "x-x-10-9-11-x"]);
    const [first, second] = [far[0]?.slice(0, 1) ?? [], far[0]?.slice(1) ?? []];
    expect(jumps([first, second])).toEqual([]);
    const fill = { bar: 1, beat: 3, beats: 2, notes: [[0, "2:9"]] } as const;
    expect(jumps(far, { fills: { lower: [fill] } })).toEqual([]);
  });

  test("R17 needs a chord that can be read", () => {
    expect(jumps(bars(["G7", "-", "x-x-5-4-6-x"], ["N.C.", "-", "x-x-10-9-11-x"]))).toEqual([]);
  });
});
