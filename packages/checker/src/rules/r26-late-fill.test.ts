/** R26: the last note of a fill, at and beside a quarter of a beat before the gap ends. Ours. */
import { expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "../test-support/small-board.ts";

const bar: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];

/** A fill in the gap before bar 2 whose last note comes so many beats before the gap ends. */
function late(room: number, more: Partial<SmallBoard> = {}, kind: "fill" | "line" = "fill") {
  const notes = [
    [0, "2:8"],
    [2 - room, "1:8"],
  ] as const;
  const board = smallBoard({
    sections: bars(bar, bar),
    fills: { upper: [{ bar: 1, beat: 3, beats: 2.25, notes, kind }] },
    phrases: [
      { bar: 1, beat: 1, beats: 2 },
      { bar: 2, beat: 1, beats: 4 },
    ],
    ...more,
  });
  return check(board).filter(({ rule }) => rule === "R26");
}

test("R26 a quarter of a beat before the voice is in time, an eighth is a look", () => {
  expect(late(0.25)).toEqual([]);
  expect(late(0.125)).toMatchObject([
    {
      ...{ severity: "look", measured: 0.125, threshold: 0.25, lanes: ["upper"] },
      notes: [{ pitch: 72 }],
      words: "The upper lane's last note comes right as the voice comes in: end the fill earlier.",
    },
  ]);
});

test("R26 counts what is heard: a swung sixteenth comes later than it is written", () => {
  expect(late(0.25, { feel: "swing" })).toMatchObject([{ measured: 1 / 6 }]);
});

test("R26 says so before the next part of the tune, and nothing at its end", () => {
  const phrases = [{ bar: 1, beat: 1, beats: 2 }];
  const twoParts = [...bars(bar), ...bars(bar)];
  expect(late(0.125, { sections: twoParts, phrases })[0]?.words).toContain("next part");
  expect(late(0.125, { sections: bars(bar), phrases })).toEqual([]);
});

test("R26 leaves lines alone, and fills of which R24 says more", () => {
  expect(late(0.125, {}, "line")).toEqual([]);
  const over = { bar: 1, beat: 3, beats: 3, notes: [[1.9375, "2:8"]] } as const;
  expect(late(1, { fills: { upper: [over] } })).toEqual([]);
});
