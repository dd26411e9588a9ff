/** Softer, damped or stopped. */
import { barId } from "@halflap/board/ids";
import { expect, test } from "vitest";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";
import { relief, taken, waysOf } from "../test-support/ways.ts";

const apart: Played = ["F7", "x-x-x-x-8-8", "x-x-3-2-4-x"];

test("O1 R33 comes down by as little as it needs, and back up after the bars", () => {
  const board = smallBoard({
    sections: bars(apart, apart, apart),
    dynamics: { upper: { 1: "ff", 3: "mf" }, lower: { 1: "mf" } },
  });
  const way = waysOf(board, "R33", { lanes: ["upper"] })[0];
  expect(way?.words).toBe("Play f in bars 1 and 2");
  expect(way && relief(board, way)).toBeGreaterThan(0);
  expect(way && taken(board, way).lanes.upper.dynamics.get(barId("b3"))).toBe("mf");
});

test("O1 R33 what was written for the next bar by silence is written out", () => {
  const board = smallBoard({
    sections: bars(apart, apart),
    dynamics: { upper: { 1: "ff" }, lower: { 1: "mf", 2: "ff" } },
  });
  const way = waysOf(board, "R33", { lanes: ["upper"] })[0];
  expect(way?.edits).toEqual([
    { kind: "dynamic", bar: "b1", dynamic: "f" },
    { kind: "dynamic", bar: "b2", dynamic: "ff" },
  ]);
});

test("O1 R33 after the bars it is as loud as it was in the last of them", () => {
  const board = smallBoard({
    sections: bars(apart, apart, apart, apart, apart),
    dynamics: { upper: { 1: "mf", 2: "ff" }, lower: { 1: "pp", 4: "f" } },
  });
  const way = waysOf(board, "R33", { lanes: ["upper"] })[0];
  expect(way?.words).toBe("Play p in bars 1 to 3");
  expect(way && [...taken(board, way).lanes.upper.dynamics]).toEqual([
    [barId("b1"), "p"],
    [barId("b4"), "ff"],
  ]);
});

test("O1 R27 the palm takes strokes out of the voice's way", () => {
  const board = smallBoard({
    sections: bars(apart, apart),
    strums: { upper: "DUDUDUDU", lower: "DUDUDUDU" },
    phrases: [{ bar: 1, beat: 1, beats: 8 }],
    voice: { lane: undefined, type: "soprano", range: undefined },
  });
  const ways = waysOf(board, "R27");
  expect(ways.some(({ edits }) => edits.some(({ kind }) => kind === "palm-mute"))).toBe(true);
});
