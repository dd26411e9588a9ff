/** R32: open strings that ring on into the next chord. Common practice, no source. */
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

function ringing(sections: SmallBoard["sections"], more: Partial<SmallBoard> = {}) {
  return check(smallBoard({ sections, ...more })).filter(({ rule }) => rule === "R32");
}
/** The open A string under A♭: outside the chord, below all that the next grip sounds. */
const lowA = bars(["A", "-", "x-0-2-2-2-x"], ["Ab", "-", "x-x-6-5-4-x"]);

describe("R32", () => {
  test("R32 an open string outside the next chord is a look that names it", () => {
    const [finding, ...more] = ringing(lowA);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      severity: "look",
      lanes: ["lower"],
      slots: ["s1", "s2"],
      notes: [{ lane: "lower", slot: "s1", pitch: 45 }],
      measured: 1,
    });
    expect(finding?.words).toBe(
      "The lower lane's open A rings on into A♭: mute it, or fret it elsewhere.",
    );
  });

  test.each(["D.DU.UDU", "D.DU.UD~U"])("R32 pushed over the bar line or not: %s", (lower) => {
    const found = ringing(lowA, { strums: { lower } });
    expect(found).toMatchObject([{ slots: ["s1", "s2"] }]);
    expect(found[0]?.words).toBe(ringing(lowA)[0]?.words);
  });

  test("R32 pushed over the seam it names this section's slot", () => {
    const [a, b] = [lowA[0]?.slice(0, 1) ?? [], lowA[0]?.slice(1) ?? []];
    expect(ringing([a, b], { strums: { lower: "D.DU.UD~U" } })).toMatchObject([{ slots: ["s1"] }]);
  });

  test("R32 two open strings of one name are named once", () => {
    const [finding] = ringing(bars(["Em", "-", "0-2-2-0-0-0"], ["Bb", "-", "x-1-3-3-3-x"]));
    expect(finding?.words).toContain("open E ring on into B♭");
  });

  test("R32 told to ring on it is a fix", () => {
    expect(ringing(lowA, { letRings: { lower: [1] } })).toMatchObject([{ severity: "fix" }]);
    expect(ringing(lowA, { letRings: { lower: [2] } })).toMatchObject([{ severity: "look" }]);
  });

  test("R32 a string that the next grip stops or strikes again does not ring on", () => {
    const stopped = bars(["A", "-", "x-0-2-2-2-x"], ["Ab", "-", "x-11-10-8-9-x"]);
    expect(ringing(stopped)).toEqual([]);
    const again = bars(["A", "-", "x-0-2-2-2-x"], ["Ab", "-", "x-0-6-5-4-x"]);
    expect(ringing(again)).toEqual([]);
  });

  test("R32 silent between sounding strings it is muted, outside them it is not", () => {
    const inner = bars(["A", "-", "x-0-2-2-2-x"], ["Ab", "-", "4-x-6-5-4-x"]);
    expect(ringing(inner)).toEqual([]);
    const high = bars(["Em", "-", "x-x-2-0-0-0"], ["Eb", "-", "x-6-5-3-x-x"]);
    expect(ringing(high)).toMatchObject([{ measured: 2, notes: [{ pitch: 59 }, { pitch: 64 }] }]);
  });

  test("R32 a tone or colour of the next chord may ring, unless the colour rubs", () => {
    const tone = bars(["A", "-", "x-0-2-2-2-x"], ["D", "-", "x-x-7-7-7-x"]);
    expect(ringing(tone)).toEqual([]);
    const colour = bars(["A", "-", "x-0-2-2-2-x"], ["G7", "-", "x-x-5-4-6-x"]);
    expect(ringing(colour)).toEqual([]);
    // A, the 9th of G7, a minor ninth below B♭3 of the other lane.
    const rub = bars(["A", "-", "x-0-2-2-2-x"], ["G7", "x-x-8-x-x-x", "x-x-5-4-6-x"]);
    expect(ringing(rub)).toHaveLength(1);
  });

  test("R32 a choke, a ghost, the palm and a fill end it", () => {
    expect(ringing(lowA, { strums: { lower: "D.D.D.D." } })).toHaveLength(1);
    expect(ringing(lowA, { strums: { lower: "D.D.D.Dx" } })).toEqual([]);
    expect(ringing(lowA, { strums: { lower: "D.D.D.Dd" } })).toEqual([]);
    expect(ringing(lowA, { palmMutes: { lower: [1] } })).toEqual([]);
    const fill = { bar: 1, beat: 4, beats: 1, notes: [[0, "5:3"]] } as const;
    expect(ringing(lowA, { fills: { lower: [fill] } })).toEqual([]);
  });

  test("R32 an open note of a fill that rings on is a fix, one that does not is nothing", () => {
    const fill = (letRing: boolean) => ({
      lower: [{ bar: 1, beat: 4, beats: 1, notes: [[0, "5:0", { letRing }]] as const }],
    });
    expect(ringing(lowA, { fills: fill(true) })).toMatchObject([{ severity: "fix" }]);
    expect(ringing(lowA, { fills: fill(false) })).toEqual([]);
  });

  test("R32 under a capo the open string sounds the capo's pitch", () => {
    // With the capo on 1 the A string sounds B flat, the root of the next chord.
    const capo = bars(["Bb", "-", "x-0-2-2-2-x"], ["Bb", "-", "x-x-7-6-5-x"]);
    expect(ringing(capo, { capo: { lower: 1 } })).toEqual([]);
    const wrong = bars(["Bb", "-", "x-0-2-2-2-x"], ["A", "-", "x-x-6-5-4-x"]);
    expect(ringing(wrong, { capo: { lower: 1 } })).toMatchObject([{ notes: [{ pitch: 46 }] }]);
  });

  test("R32 goes on over the seam, and names this section's slot", () => {
    const [a, b] = [lowA[0]?.slice(0, 1) ?? [], lowA[0]?.slice(1) ?? []];
    expect(ringing([a, b])).toMatchObject([{ slots: ["s1"] }]);
    expect(ringing([a, b], { form: [0] })).toEqual([]);
  });
});
