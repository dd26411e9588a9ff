/**
 * R10 in time: held notes of fills and lines against the other part.
 * thecraftofcomposing.com, Minor 9ths, 2017: avoid them between voices. Passing notes: common
 * practice, no source.
 */
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";
import type { SmallFill } from "../test-support/small-playing.ts";

/** The lower lane holds C4; the upper one has a grip far away. */
const held: Played = ["F", "x-x-x-x-x-17", "x-x-x-x-1-x"];

function rubs(sections: SmallBoard["sections"], fills: SmallBoard["fills"], more = {}) {
  const board = smallBoard({ sections, fills, key: "F", ...more });
  return check(board).filter(({ rule }) => rule === "R10");
}

/** A fill of one note, from beat 3 of bar 1, so many ticks long. */
function note(place: string, length: number, more: Partial<SmallFill> = {}): SmallFill {
  return { bar: 1, beat: 3, beats: 2, notes: [[0, place, { length: ticks(length) }]], ...more };
}

describe("R10 in fills", () => {
  test("R10 a held note of a fill a semitone above the other part's is a fix", () => {
    const found = rubs(bars(held), { upper: [note("2:2", 48)] });
    expect(found).toMatchObject([
      {
        severity: "fix",
        lanes: ["upper", "lower"],
        id: "R10:upper+lower:s1@96",
        spans: [{ bar: "b1", start: 96, end: 144 }],
        measured: 1,
        words: "The upper lane's D♭ against the lower lane's C: held that long, it rubs.",
      },
    ]);
    expect(found[0]?.notes).toEqual([
      { lane: "upper", slot: "s1", pitch: 61 },
      { lane: "lower", slot: "s1", pitch: 60 },
    ]);
  });

  test("R10 half a beat passes, more does not", () => {
    expect(rubs(bars(held), { upper: [note("2:2", 24)] })).toEqual([]);
    expect(rubs(bars(held), { upper: [note("2:2", 25)] })).toHaveLength(1);
  });

  test("R10 a line is heard like a fill, and a minor ninth like a semitone", () => {
    expect(rubs(bars(held), { upper: [note("1:9", 48, { kind: "line" })] })).toMatchObject([
      { measured: 13 },
    ]);
    expect(rubs(bars(held), { upper: [note("2:3", 48)] })).toEqual([]);
  });

  test("R10 a bend is never in one place, a note that rings on is long", () => {
    const one = (more: object) => rubs(bars(held), { upper: [fillWith(more)] });
    const fillWith = (more: object): SmallFill => ({
      bar: 1,
      beat: 3,
      beats: 2,
      notes: [[0, "2:2", { length: ticks(12), ...more }]],
    });
    expect(one({})).toEqual([]);
    expect(one({ letRing: true })).toHaveLength(1);
    expect(one({ length: ticks(48) })).toHaveLength(1);
    expect(one({ length: ticks(48), way: "bend", bend: 1 })).toEqual([]);
  });

  test("R10 what the symbol contains is nothing, and blue thirds where they are the style", () => {
    const major: Played = ["Fmaj7", "x-x-x-x-x-17", "x-x-x-x-5-x"];
    expect(rubs(bars(major), { upper: [note("2:6", 48)] })).toEqual([]);
    const third: Played = ["F7", "x-x-x-x-x-17", "x-x-2-2-x-x"];
    const blue = { upper: [note("3:1", 48)] };
    expect(rubs(bars(third), blue)).toHaveLength(1);
    expect(rubs(bars(third), blue, { more: { blueNotes: true } })).toEqual([]);
  });

  test("R10 is heard where the other part's next grip begins, also in the next bar", () => {
    const clear: Played = ["F", "x-x-x-x-x-17", "x-x-x-2-x-x"];
    const fills = (length: number) => ({ upper: [{ ...note("2:2", length), beats: 4 }] });
    expect(rubs(bars(clear, held), fills(96))).toEqual([]);
    expect(rubs(bars(clear, held), fills(120))).toEqual([]);
    expect(rubs(bars(clear, held), fills(144))).toMatchObject([
      { slots: ["s1", "s2"], spans: [{ bar: "b2", start: 0, end: 48 }], bars: ["b2"] },
    ]);
  });

  test("R10 is silenced where it is heard, wherever its note was struck", () => {
    const clear: Played = ["F", "x-x-x-x-x-17", "x-x-x-2-x-x"];
    const fills = { upper: [{ ...note("2:2", 144), beats: 4 }] };
    const silenced = (...bars_: number[]) =>
      rubs(bars(clear, held), fills, { silences: [{ rule: "R10", bars: bars_ }] });
    expect(silenced(2)).toMatchObject([{ silenced: expect.any(String) }]);
    expect(silenced(1)).toMatchObject([{ silenced: undefined }]);
  });

  test("R10 two lines over the bar line rub whichever lane holds the older note", () => {
    const far: Played = ["F", "x-x-x-x-x-17", "x-x-x-2-x-x"];
    const older: SmallFill = { ...note("4:2", 288), beats: 6, kind: "line" };
    const newer: SmallFill = { ...note("4:3", 96), bar: 2, beat: 1, kind: "line" };
    const one = rubs(bars(far, far), { lower: [older], upper: [newer] });
    const other = rubs(bars(far, far), { upper: [older], lower: [newer] });
    expect(one.filter(({ words }) => words.includes("E against"))).toMatchObject([
      {
        bars: ["b2"],
        words: "The lower lane's E against the upper lane's F: held that long, it rubs.",
      },
    ]);
    expect(other.filter(({ words }) => words.includes("E against"))).toHaveLength(1);
  });

  test("R10 what passes is told by quarter notes, whatever the meter counts in", () => {
    const inEighths = (length: number) =>
      rubs(
        bars(held),
        { upper: [{ bar: 1, beat: 1, beats: 4, notes: [[0, "2:2", { length: ticks(length) }]] }] },
        { meter: { beats: 7, unit: 8 } },
      );
    expect(inEighths(24)).toEqual([]);
    expect(inEighths(25)).toHaveLength(1);
  });

  test("R10 a part that fills itself does not sound its grip meanwhile", () => {
    const lower: SmallFill = { bar: 1, beat: 3, beats: 2, notes: [[0, "3:2"]] };
    expect(rubs(bars(held), { upper: [note("2:2", 48)], lower: [lower] })).toEqual([]);
    const late = { ...lower, beat: 4, beats: 1 };
    expect(rubs(bars(held), { upper: [note("2:2", 48)], lower: [late] })).toHaveLength(1);
  });

  test("R10 a grip that is choked before or struck after is not heard with the note", () => {
    const strummed = (lower: string, from = 2) =>
      rubs(
        bars(held),
        { upper: [note("2:2", 96, { beat: from, beats: 4 })] },
        { strums: { lower } },
      );
    expect(strummed("Dx......")).toEqual([]);
    expect(strummed("......D.")).toEqual([]);
    expect(strummed("DxDxDxDx")).toEqual([]);
    const [beat3, beat4] = [{ start: 96 }, { start: 144 }];
    expect(strummed("....D...")).toMatchObject([{ spans: [{ ...beat3, end: 144 }] }]);
    expect(strummed("DUDUDUDU")).toMatchObject([{ spans: [{ start: 48, end: 144 }] }]);
    expect(strummed("D..xD.xD", 3)).toMatchObject([{ spans: [{ ...beat3, end: 144 }] }]);
    expect(strummed("DxD.xDD.", 3)).toMatchObject([{ spans: [{ start: 120, end: 192 }] }]);
    expect(strummed("D...x.D.", 3)).toMatchObject([{ spans: [{ ...beat4, end: 192 }] }]);
  });

  test("R10 a push sounds on in the slot to which it leads", () => {
    const clear: Played = ["F", "x-x-x-x-x-17", "x-x-x-2-x-x"];
    const fill = { upper: [note("2:2", 96, { bar: 2, beat: 1, beats: 4 })] };
    const strums = (second: string) => ({ strums: { lower: { 1: "D......~U", 2: second } } });
    expect(rubs(bars(clear, held), fill, strums("....D..."))).toMatchObject([
      { spans: [{ bar: "b2", start: 0, end: 96 }] },
    ]);
    expect(rubs(bars(clear, held), fill, strums("x......D"))).toEqual([]);
  });

  test("R10 two fills that rub are one finding", () => {
    const apart: Played = ["F", "x-x-x-x-x-17", "x-x-3-x-x-x"];
    const found = rubs(bars(apart), { upper: [note("2:2", 48)], lower: [note("2:1", 72)] });
    expect(found).toMatchObject([{ spans: [{ start: 96, end: 144 }] }]);
  });

  test("R10 two rubs that begin at once are one finding", () => {
    const two: Played = ["F", "x-x-x-x-x-17", "x-x-x-5-6-x"];
    const fill: SmallFill = {
      bar: 1,
      beat: 3,
      beats: 2,
      notes: [
        [0, "2:2", { length: ticks(48) }],
        [0, "1:2", { length: ticks(72) }],
      ],
    };
    const [finding, ...more] = rubs(bars(two), { upper: [fill] });
    expect(more).toEqual([]);
    expect(finding?.words).toContain("D♭ against the lower lane's C and the upper lane's");
    expect(finding?.spans).toMatchObject([{ start: 96, end: 168 }]);
  });

  test("R10 what the two grips do already is said about their slot only", () => {
    const rubbing: Played = ["F", "x-x-x-x-2-x", "x-x-x-x-1-x"];
    const found = rubs(bars(rubbing), { upper: [note("2:2", 48)] });
    expect(found.map(({ id }) => id)).toEqual(["R10:upper+lower:s1"]);
  });

  test("R10 a rub from the start of a slot has an id beside the slot's own", () => {
    const rubbing: Played = ["F", "x-x-x-x-2-x", "x-x-x-x-1-x"];
    const fill = note("1:9", 48, { beat: 1 });
    const found = rubs(bars(rubbing), { upper: [fill] });
    expect(found.map(({ id }) => id).sort()).toEqual([
      "R10:upper+lower:s1",
      "R10:upper+lower:s1@0",
    ]);
  });
});
