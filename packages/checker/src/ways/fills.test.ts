/** Fills left to the other, shortened, or moved into a gap. */
import { barId } from "@halflap/board/ids";
import { assert, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";
import type { SmallFill } from "../test-support/small-playing.ts";
import { foundBy, relief, taken, waysOf } from "../test-support/ways.ts";
import { preparedBoard } from "../tune.ts";
import { waysOut } from "../ways-out.ts";
import { fillChanges } from "./fills.ts";
import { situationOf } from "./situation.ts";

const apart: Played = ["F7", "x-x-x-x-8-8", "x-x-3-2-4-x"];
const sections = bars(apart, apart, apart, apart);
const high: SmallFill = {
  bar: 2,
  beat: 1,
  beats: 3,
  notes: [
    [0, "1:8"],
    [1, "1:10"],
    [2, "1:8"],
  ],
};
const low: SmallFill = { bar: 2, beat: 3, beats: 2, notes: [[0, "4:3"]] };

const second = { bar: barId("b2"), start: ticks(0), end: ticks(192) };
const fillRules: ReadonlySet<string> = new Set(["R23", "R24", "R26"]);

describe("O1 fills", () => {
  test("R23 one is left to the other player, or ends before it", () => {
    const board = smallBoard({ sections, fills: { upper: [high], lower: [low] } });
    const ways = waysOf(board, "R23");
    const words = ways.map((way) => way.words);
    expect(words).toContain("Leave the fill in bar 2 to the lower lane");
    const way = ways.find((each) => each.words.startsWith("End"));
    expect(way?.words).toBe("End the fill in bar 2 half a beat earlier");
    for (const each of ways) expect(relief(board, each)).toBeGreaterThan(0);
  });

  test("what ends earlier keeps its first notes, cut where they would cross the end", () => {
    const board = smallBoard({ sections, fills: { upper: [high], lower: [{ ...low, beat: 2 }] } });
    const way = waysOf(board, "R23", { lanes: ["upper"] }).find(({ words }) =>
      words.startsWith("End"),
    );
    const [fill] = [...(way ? taken(board, way).lanes.upper.fills.values() : [])];
    expect(fill?.length).toBeLessThan(3 * 48);
    expect(fill?.notes.length).toBeGreaterThan(0);
    for (const note of fill?.notes ?? []) {
      expect(note.start + note.length).toBeLessThanOrEqual(fill?.length ?? 0);
    }
  });

  test("R24 a fill under the voice goes into the nearest gap that is free", () => {
    const board = smallBoard({
      sections,
      fills: { upper: [{ ...high, beats: 2, notes: [[0, "1:8"]] }] },
      phrases: [
        { bar: 1, beat: 1, beats: 6 },
        { bar: 3, beat: 1, beats: 4 },
      ],
      voice: { lane: undefined, type: "tenor", range: undefined },
    });
    const way = waysOf(board, "R24").find(({ words }) => words.startsWith("Play"));
    expect(way?.words).toBe("Play the fill of bar 2 in the gap of bar 2");
    expect(way?.edits).toMatchObject([{ kind: "fill", fill: { bar: "b2", start: 96 } }]);
    expect(way && relief(board, way)).toBeGreaterThan(0);
  });

  test("it is left to the other only where both fill at one time", () => {
    const early = { ...high, beat: 1, beats: 2, notes: [[0, "1:8"]] } as const;
    const more = {
      phrases: [{ bar: 1, beat: 1, beats: 5 }],
      voice: { lane: undefined, type: "tenor", range: undefined },
    } as const;
    const wordsOf = (lower: SmallFill) => {
      const board = smallBoard({ sections, fills: { upper: [early], lower: [lower] }, ...more });
      const found = check(board).filter(({ rule }) => fillRules.has(rule));
      return found.flatMap((each) =>
        waysOut(board, each, { lanes: ["upper"] }).flatMap(({ words }) =>
          words.startsWith("Leave") ? [words] : [],
        ),
      );
    };
    expect(wordsOf({ ...low, beat: 2 })).toContain("Leave the fill in bar 2 to the lower lane");
    for (const words of wordsOf({ ...low, beat: 3 })) expect(words).not.toContain("to the lower");
  });

  test.each([
    [undefined, ": the gap is nobody's yet"],
    ["lower", ": the gap belongs to the lower lane"],
    ["open", ": the gap stays empty"],
    ["upper", ""],
    ["both", ""],
  ] as const)("one that is left out in a gap of %s says so", (owner, why) => {
    const board = smallBoard({
      sections,
      fills: { upper: [{ ...high, notes: [[0, "1:8"]] }] },
      phrases: [{ bar: 1, beat: 1, beats: 4 }],
      voice: { lane: "upper", type: "tenor", range: undefined },
    });
    const two = smallBoard({ sections, fills: { upper: [high], lower: [low] } });
    const finding = foundBy(two, "R23");
    const prepared = preparedBoard(board);
    const situation = situationOf(board, prepared, { ...finding, spans: [second] }, "upper");
    const passages = prepared.passages.map((one) => ({
      ...one,
      passage: { ...one.passage, gaps: one.passage.gaps.map((gap) => ({ ...gap, owner })) },
    }));
    const words = fillChanges({ ...situation, passages }).map((each) => each.words);
    expect(words).toContain(`Leave out the fill in bar 2${why}`);
  });

  test("R28 a busy fill under its player's own voice is begun later or left out", () => {
    const busy: SmallFill = {
      ...{ bar: 2, beat: 1, beats: 4 },
      notes: [0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75].map(
        (beat, index) => [beat, `1:${8 + (index % 3)}`] as const,
      ),
    };
    const board = smallBoard({
      sections,
      fills: { upper: [busy] },
      phrases: [{ bar: 2, beat: 1, beats: 4 }],
      voice: { lane: "upper", type: "tenor", range: undefined },
    });
    const words = waysOf(board, "R28").map((way) => way.words);
    expect(words).toContain("Leave out the fill in bar 2");
  });

  test("R10 a held note of a line is ended or left out", () => {
    const line: SmallFill = {
      ...{ kind: "line", bar: 1, beat: 3, beats: 2 },
      notes: [
        [0, "2:2", { length: ticks(48) }],
        [1, "2:3", { length: ticks(24), way: "hammer-on" }],
      ],
    };
    const held: Played = ["F", "x-x-x-x-x-17", "x-x-x-x-1-x"];
    const board = smallBoard({ sections: bars(held), fills: { upper: [line] }, key: "F" });
    const ways = waysOf(board, "R10", { lanes: ["upper"] });
    const notesAfter = (start: string) => {
      const way = ways.find(({ words }) => words.startsWith(start));
      assert(way !== undefined, start);
      expect(relief(board, way)).toBeGreaterThan(0);
      const [fill] = [...taken(board, way).lanes.upper.fills.values()];
      return fill?.notes.map(({ length, fret, way: how }) => [length, fret, how]);
    };
    expect(notesAfter("End the D♭ after half a beat in the line of bar 1")).toEqual([
      [24, 2, "pluck"],
      [24, 3, "hammer-on"],
    ]);
    expect(notesAfter("Leave out the D♭ in the line of bar 1")).toEqual([[24, 3, "pluck"]]);
  });

  test("O2 a fill that is left out weighs a look", () => {
    const board = smallBoard({ sections, fills: { upper: [high], lower: [low] } });
    const ways = waysOf(board, "R23");
    const kept = ways.findIndex(({ words }) => words.startsWith("End"));
    const gone = ways.findIndex(({ words }) => words.startsWith("Leave"));
    expect(kept).toBeLessThan(gone);
  });
});
