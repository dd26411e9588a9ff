/** Other strum patterns. */
import type { Board } from "@halflap/board/board";
import { assert } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";
import { relief, taken, waysOf } from "../test-support/ways.ts";

const apart: Played = ["F7", "x-x-x-x-8-8", "x-x-3-2-4-x"];
const sections = bars(apart, apart, apart, apart);

describe("O1 another pattern", () => {
  test("R18 one lane strums where the other does not", () => {
    const board = smallBoard({ sections, strums: { upper: "D.D.D.D.", lower: "D.D.D.D." } });
    const ways = waysOf(board, "R18");
    const way = ways.find(({ words }) => words.includes("where the other part has none"));
    expect(way?.words).toContain(".U.U.U.U");
    expect(way && relief(board, way)).toBeGreaterThan(0);
    expect(way && check(taken(board, way)).map(({ rule }) => rule)).not.toContain("R18");
  });

  test("R18 a single hole is no rhythm to answer in", () => {
    const strums = (pattern: string) => ({ upper: pattern, lower: pattern });
    const holes = (pattern: string) =>
      waysOf(smallBoard({ sections, strums: strums(pattern) }), "R18").filter(({ words }) =>
        words.includes("where the other part has none"),
      );
    expect(holes("D.DUDUDU")).toEqual([]);
    expect(holes("D.DU.UDU").length).toBeGreaterThan(0);
  });

  test("the beats that are struck are named as the meter has them", () => {
    const named = (meter: Board["meter"], pattern: string) =>
      waysOf(
        smallBoard({ sections, meter, strums: { upper: pattern, lower: pattern } }),
        "R18",
      ).flatMap(({ words }) => /^Strum (on [\d, and]+) in/.exec(words)?.[1] ?? []);
    expect(named({ beats: 3, unit: 4 }, "DUDUDU")).toContain("on 2");
  });

  test("R18 over a whole section is set there once", () => {
    const board = smallBoard({ sections, strums: { upper: "D.DU.UDU", lower: "D.DU.UDU" } });
    const [way] = waysOf(board, "R18", { lanes: ["upper"] });
    expect(way?.edits.map(({ kind }) => kind)).toEqual(["strum", "strum-at"]);
    expect(way?.edits[1]).toMatchObject({ place: { kind: "section", section: "section0" } });
  });

  test("R18 over a long section leaves a section without bars alone", () => {
    const long = Array.from({ length: 33 }, () => [apart]);
    const strums = { upper: "D.DU.UDU", lower: "D.DU.UDU" };
    const board = smallBoard({ sections: [long, []], strums });
    const [way] = waysOf(board, "R18", { lanes: ["upper"] });
    const places = way?.edits.flatMap((edit) => (edit.kind === "strum-at" ? [edit.place] : []));
    expect(places).toEqual([{ kind: "section", section: "section0" }]);
  });

  test("R18 in some bars only is set bar by bar", () => {
    const same = { 1: "D.DU.UDU", 2: "D.DU.UDU" };
    const board = smallBoard({ sections, strums: { upper: same, lower: same } });
    const way = waysOf(board, "R18").find(({ edits }) => edits[0]?.kind === "strum");
    const places = way?.edits.flatMap((edit) => (edit.kind === "strum-at" ? [edit.place] : []));
    expect(places).toEqual([
      { kind: "bar", bar: "b1" },
      { kind: "bar", bar: "b2" },
    ]);
  });

  test("R18 a pass with a pattern of its own changes with its whole section only", () => {
    const passing = (lower: string | Readonly<Record<number, string>>): Board => {
      const board = smallBoard({ sections, strums: { upper: "D.DU.UDU", lower } });
      const { strumming, ...lane } = board.lanes.upper;
      const own = strumming.lane;
      assert(own !== undefined, "a pattern");
      const passes = new Map(board.form.map(({ id }) => [id, own]));
      const upper = { ...lane, strumming: { ...strumming, lane: undefined, passes } };
      return { ...board, lanes: { ...board.lanes, upper } };
    };
    const placesIn = (board: Board) =>
      waysOf(board, "R18", { lanes: ["upper"] })
        .flatMap(({ edits }) => edits)
        .flatMap((edit) => (edit.kind === "strum-at" ? [edit.place.kind] : []));
    const [half, same] = ["D...D...", "D.DU.UDU"];
    expect(placesIn(passing({ 1: same, 2: same, 3: half, 4: half }))).not.toContain("pass");
    expect(placesIn(passing(same))).toContain("pass");
  });

  test("a pattern of the lane's own library is set, not made again", () => {
    const off = ".U.U.U.U";
    const upper = { 1: "D.D.D.D.", 2: "D.D.D.D.", 3: off, 4: off };
    const board = smallBoard({ sections, strums: { upper, lower: "D.D.D.D." } });
    const ways = waysOf(board, "R18", { lanes: ["upper"] });
    const way = ways.find(({ words }) => words.endsWith(off));
    expect(way?.edits.map(({ kind }) => kind)).toEqual(["strum-at", "strum-at"]);
  });

  test("R21 R22 dense strumming is thinned", () => {
    const dense = "DUDUDUDUDUDUDUDU";
    const both = smallBoard({ sections, strums: { upper: dense, lower: dense } });
    expect(waysOf(both, "R21").length).toBeGreaterThan(0);
    const fast = smallBoard({ sections, strums: { upper: dense }, tempo: 200 });
    const [way] = waysOf(fast, "R22");
    expect(way && relief(fast, way)).toBeGreaterThan(0);
  });

  test("R20 the straight part swings too", () => {
    // A swung eighth is 8 ticks late: at 300 beats a minute 33 ms, a flam (see R20).
    const strums = { upper: ".U.U.U.U", lower: "D.DUD.DU" };
    const swung = smallBoard({ sections, strums, feel: "swing", tempo: 300 });
    const { strums: library, ...lane } = swung.lanes.upper;
    const straight = [...library].map(
      ([id, strum]) => [id, { ...strum, feel: "straight" as const }] as const,
    );
    const upper = { ...lane, strums: new Map(straight) };
    const board = { ...swung, lanes: { ...swung.lanes, upper } };
    const way = waysOf(board, "R20").find(({ words }) => words.includes("feel"));
    expect(way?.lane).toBe("upper");
    expect(way && relief(board, way)).toBeGreaterThan(0);
  });
});
