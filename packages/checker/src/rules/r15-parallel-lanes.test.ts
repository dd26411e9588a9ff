/**
 * R15: runs of parallel octaves and unisons between the outer voices, at and beside each limit.
 * Huron, Music Perception 19(1), 2001; Georgetown College part-writing guidelines: no parallel
 * octaves and unisons. Limits ours.
 */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

/** One string in each lane, so that lowest and highest are the same: fret by fret. */
function onStrings(upper: string, lower: string, ...frets: readonly number[]) {
  return bars(
    ...frets.map(
      (fret): Played => ["N.C.", upper.replace("n", `${fret}`), lower.replace("n", `${fret}`)],
    ),
  );
}
/** D3 and D4 on open strings: an octave apart. The 2nd string is three frets up. */
const octaves = (...frets: readonly number[]) =>
  bars(...frets.map((fret): Played => ["N.C.", `x-x-x-x-${fret + 3}-x`, `x-x-${fret}-x-x-x`]));
const unison = (...frets: readonly number[]) => onStrings("x-x-n-x-x-x", "x-x-n-x-x-x", ...frets);

function parallels(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections, ...more })).filter(({ rule }) => rule === "R15");
}

describe("R15", () => {
  test("R15 one move in octaves is nothing, two are a look, four a fix", () => {
    expect(parallels(octaves(1, 3))).toEqual([]);
    expect(parallels(octaves(1, 3, 5))).toMatchObject([
      { severity: "look", measured: 2, threshold: 2, slots: ["s1", "s2", "s3"] },
    ]);
    expect(parallels(octaves(1, 3, 5, 4))).toMatchObject([{ severity: "look", measured: 3 }]);
    expect(parallels(octaves(1, 3, 5, 4, 2))).toMatchObject([
      { severity: "fix", measured: 4, threshold: 4 },
    ]);
  });

  test("R15 in unison two moves are a fix already, one is nothing", () => {
    expect(parallels(unison(1, 3))).toEqual([]);
    expect(parallels(unison(1, 3, 5))).toMatchObject([{ severity: "fix", measured: 2 }]);
  });

  test("R15 two octaves apart is as one octave, a fifth is nothing", () => {
    const two = bars(
      ["N.C.", "x-x-x-x-x-3", "3-x-x-x-x-x"],
      ["N.C.", "x-x-x-x-x-5", "5-x-x-x-x-x"],
      ["N.C.", "x-x-x-x-x-7", "7-x-x-x-x-x"],
    );
    expect(parallels(two)).toMatchObject([{ severity: "look", measured: 2 }]);
    expect(parallels(onStrings("x-x-n-x-x-x", "x-n-x-x-x-x", 1, 3, 5))).toEqual([]);
  });

  test("R15 a repeated chord, contrary motion and a rest end a run", () => {
    expect(parallels(octaves(1, 3, 3, 5))).toEqual([]);
    const contrary = bars(
      ["N.C.", "x-x-x-x-4-x", "x-x-1-x-x-x"],
      ["N.C.", "x-x-x-x-6-x", "x-x-3-x-x-x"],
      ["N.C.", "x-x-x-x-4-x", "x-x-13-x-x-x"],
    );
    expect(parallels(contrary)).toEqual([]);
    expect(parallels(octaves(1, 3, 5), { layOuts: { upper: [2] } })).toEqual([]);
  });

  test("R15 hears the four pairings of lowest and highest, and names the voices", () => {
    const tops = bars(
      ["N.C.", "x-x-x-8-4-x", "x-3-1-x-x-x"],
      ["N.C.", "x-x-x-6-6-x", "x-2-3-x-x-x"],
      ["N.C.", "x-x-x-9-8-x", "x-1-5-x-x-x"],
    );
    expect(parallels(tops)[0]?.words).toMatch(
      /^Your top notes move in octaves through three chords: hold a note in one part, or /,
    );
    const crossed = bars(
      ["N.C.", "x-x-x-x-4-2", "x-3-1-x-x-x"],
      ["N.C.", "x-x-x-x-6-2", "x-2-3-x-x-x"],
      ["N.C.", "x-x-x-x-8-4", "x-1-5-x-x-x"],
    );
    expect(parallels(crossed)[0]?.words).toMatch(
      /^The upper lane's bottom and the lower lane's top note move in octaves/,
    );
    const bottoms = bars(
      ["N.C.", "x-x-x-x-4-2", "x-x-1-4-x-x"],
      ["N.C.", "x-x-x-x-6-2", "x-x-3-5-x-x"],
      ["N.C.", "x-x-x-x-8-4", "x-x-5-4-x-x"],
    );
    expect(parallels(bottoms)[0]?.words).toMatch(/^Your bottom notes move in octaves/);
  });

  test("R15 one grip in both lanes is one finding that names all outer notes", () => {
    const same = bars(
      ["N.C.", "x-x-3-3-x-x", "x-x-3-3-x-x"],
      ["N.C.", "x-x-5-5-x-x", "x-x-5-5-x-x"],
      ["N.C.", "x-x-7-7-x-x", "x-x-7-7-x-x"],
    );
    const [finding, ...more] = parallels(same);
    expect(more).toEqual([]);
    expect(finding?.notes).toHaveLength(12);
    expect(finding?.words).toMatch(/^You two move in unison through three chords/);
  });

  /** Bottom notes on the 4th string in both lanes; tops on the 1st above, on the 3rd below. */
  const voices = (
    ...chords: readonly [above: number, below: number, upper: number, lower: number][]
  ) =>
    bars(
      ...chords.map(
        ([above, below, upper, lower]): Played => [
          "N.C.",
          `x-x-${above}-x-x-${upper}`,
          `x-x-${below}-${lower}-x-x`,
        ],
      ),
    );
  const spoken = (sections: SmallBoard["sections"]) =>
    parallels(sections).map(({ severity, slots, words }) => {
      return [severity, slots.join(" "), words.split(":")[0]];
    });

  test("R15 of a run inside a longer one as grave only the longer speaks", () => {
    // Bottom notes in unison through four chords; top notes in octaves from the second on.
    const inside = voices([1, 1, 9, 2], [3, 3, 7, 4], [5, 5, 9, 6], [6, 6, 10, 7]);
    expect(spoken(inside)).toEqual([
      ["fix", "s1 s2 s3 s4", "Your bottom notes move in unison through four chords"],
    ]);
    const first = voices([1, 1, 5, 2], [3, 3, 7, 4], [5, 5, 9, 6], [6, 6, 12, 7]);
    expect(spoken(first)).toEqual(spoken(inside));
  });

  test("R15 of a run inside a milder one only the graver speaks, though it is shorter", () => {
    // An octave between the bottoms through four chords, a look; the last three tops are the same.
    const inside = voices([13, 1, 5, 2], [15, 3, 4, 13], [17, 5, 6, 15], [18, 6, 7, 16]);
    expect(spoken(inside)).toEqual([
      ["fix", "s2 s3 s4", "Your top notes move in unison through three chords"],
    ]);
  });

  test("R15 runs that lie partly in each other both speak", () => {
    const partly = voices([1, 1, 9, 2], [3, 3, 7, 4], [5, 5, 9, 6], [2, 9, 10, 7]);
    expect(spoken(partly)).toEqual([
      ["fix", "s1 s2 s3", "Your bottom notes move in unison through three chords"],
      ["look", "s2 s3 s4", "Your top notes move in octaves through three chords"],
    ]);
  });

  test("R15 goes on into the section that follows, and names this one's slots", () => {
    const [first, second] = [octaves(1, 3), octaves(5, 5)];
    expect(parallels([...first, ...second])).toMatchObject([
      { severity: "look", measured: 2, slots: ["s1", "s2"] },
    ]);
    expect(parallels([...first, ...second], { form: [0] })).toEqual([]);
  });

  test("R15 a fill between two grips hides the move", () => {
    const fill = { bar: 2, beat: 3, beats: 2, notes: [[0, "2:9"]] } as const;
    expect(parallels(octaves(1, 3, 5))).toHaveLength(1);
    expect(parallels(octaves(1, 3, 5), { fills: { upper: [fill] } })).toEqual([]);
  });

  test("R15 is silent where a unison is meant", () => {
    expect(parallels(unison(1, 3, 5), { aims: { 2: ["unison"] } })).toEqual([]);
    expect(parallels(unison(1, 3, 5), { aims: { 2: ["lock"] } })).toHaveLength(1);
  });
});
