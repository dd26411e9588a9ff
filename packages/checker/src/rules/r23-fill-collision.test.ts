/** R23: both fill at once, at and beside half a beat. Limits ours. */
import { expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";
import type { SmallFill } from "../test-support/small-playing.ts";

const bar: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];

function collisions(upper: SmallFill, lower: SmallFill, more: Partial<SmallBoard> = {}) {
  const fills = { upper: [upper], lower: [lower] };
  return check(smallBoard({ sections: bars(bar, bar), fills, ...more })).filter(
    ({ rule }) => rule === "R23",
  );
}

test("R23 two fills at once are a fix over what they share, with its notes", () => {
  const upper: SmallFill = {
    bar: 1,
    beat: 2,
    beats: 3,
    notes: [
      [0, "2:8"],
      [1.5, "1:8"],
    ],
  };
  const [finding, ...more] = collisions(upper, { bar: 1, beat: 3, beats: 2, notes: [[1, "4:2"]] });
  expect(more).toEqual([]);
  expect(finding).toMatchObject({
    ...{ severity: "fix", measured: 2, threshold: 0.5, lanes: ["upper", "lower"] },
    spans: [{ bar: "b1", start: 96, end: 192 }],
    notes: [
      { lane: "upper", slot: "s1", pitch: 72 },
      { lane: "lower", slot: "s1", pitch: 52 },
    ],
    words: "The upper lane and the lower lane both fill here for two beats: give it to one of you.",
  });
});

test("R23 half a beat is a hand-over, more is not", () => {
  expect(collisions({ bar: 1, beat: 1, beats: 2.5 }, { bar: 1, beat: 3, beats: 2 })).toEqual([]);
  const longer = collisions({ bar: 1, beat: 1, beats: 2.75 }, { bar: 1, beat: 3, beats: 2 });
  expect(longer).toMatchObject([{ measured: 0.75 }]);
});

test("R23 not for fills marked together, nor for lines", () => {
  const [one, other] = [
    { bar: 1, beat: 1, beats: 4 },
    { bar: 1, beat: 1, beats: 4 },
  ];
  expect(collisions({ ...one, together: true }, other)).toEqual([]);
  expect(collisions(one, { ...other, together: true })).toEqual([]);
  expect(collisions({ ...one, kind: "line" }, other)).toEqual([]);
  expect(collisions(one, other)).toHaveLength(1);
});

test("R23 follows fills over the bar line, and a lane that rests fills nothing", () => {
  const [upper, lower] = [
    { bar: 1, beat: 4, beats: 3 },
    { bar: 2, beat: 1, beats: 2 },
  ];
  expect(collisions(upper, lower)).toMatchObject([{ measured: 2, bars: ["b2"] }]);
  expect(collisions(upper, lower, { layOuts: { lower: [2] } })).toEqual([]);
});
