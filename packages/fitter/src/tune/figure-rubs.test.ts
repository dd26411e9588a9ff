/** What notes of figures are charged against a grip, beside what R10 says of them. */
import { slotId } from "@halflap/board/ids";
import { check } from "@halflap/checker/check";
import { bars, type Played, smallBoard } from "@halflap/checker/test-support/small-board";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { heldGrips } from "../grips/held-grip.ts";
import { figureNotes, rubsWith } from "./figure-rubs.ts";
import { playedBoard } from "./played.ts";

/** The lower lane holds C4, against which the upper one's fill plays D flat. */
const held: Played = ["F", "x-x-x-x-x-17", "x-x-x-x-1-x"];
const length = ticks(144);

/** The rubs of the lower lane's grip that are charged, and those that are found. */
function rubsUnder(lower: string) {
  const fill = { bar: 1, beat: 2, beats: 3, notes: [[0, "2:2", { length }]] } as const;
  const strums = { lower };
  const board = smallBoard({ sections: bars(held), fills: { upper: [fill] }, key: "F", strums });
  const played = playedBoard(board);
  const { grips, setup } = board.lanes.lower;
  const [grip] = heldGrips([...grips.values()], setup).grips;
  if (grip === undefined) throw new Error("there is a grip");
  const charged = rubsWith(figureNotes(board, played)("lower", slotId("s1")), grip, played.tune);
  return { charged, found: check(board).filter(({ rule }) => rule === "R10").length };
}

test.each([
  ["Dx......", 0],
  [".......D", 0],
  ["DxDxDxDx", 0],
  ["D.......", 1],
  ["DUDUDUDU", 1],
  ["D..xD...", 1],
  ["D...xD..", 2],
])("F23 a held note over %s is charged as often as R10 finds it: %i", (strum, count) => {
  expect(rubsUnder(strum)).toEqual({ charged: count, found: count });
});
