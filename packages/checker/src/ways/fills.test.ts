/** Fills left to the other, shortened, or moved into a gap. */
import { describe, expect, test } from "vitest";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";
import type { SmallFill } from "../test-support/small-playing.ts";
import { relief, taken, waysOf } from "../test-support/ways.ts";

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

  test("O2 a fill that is left out weighs a look", () => {
    const board = smallBoard({ sections, fills: { upper: [high], lower: [low] } });
    const ways = waysOf(board, "R23");
    const kept = ways.findIndex(({ words }) => words.startsWith("End"));
    const gone = ways.findIndex(({ words }) => words.startsWith("Leave"));
    expect(kept).toBeLessThan(gone);
  });
});
