/** What a change costs the hand. */
import { editedBoard } from "@halflap/board/edited-board";
import { barId, slotId } from "@halflap/board/ids";
import { difficultyOf } from "@halflap/theory/hand";
import { assert } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { bars, smallBoard } from "../test-support/small-board.ts";
import { effortOf } from "./effort.ts";

const board = smallBoard({
  sections: bars(
    ["G7", "-", "x-x-5-4-6-x"],
    ["C7", "-", "x-x-10-9-11-x"],
    ["G7", "-", "x-x-5-4-6-x"],
  ),
});

test("O8 motion is counted into and out of the slots that change", () => {
  // V7/V to V7 on one string set: 5-4-6 to 5-3-5 moves 0, -1 and -1; the grip five frets up moves
  // each of three voices by five: 15 in and 15 out before, 2 and 2 after.
  const slot = slotId("s2");
  const after = editedBoard(board, "lower", [{ kind: "grip", slot, grip: "x-x-5-3-5-x" }]);
  const { motion, comfort } = effortOf(board, after, "lower");
  expect(motion).toBe(-26);
  const { grips, setup } = board.lanes.lower;
  const [was, is] = [grips.get(slot), after.lanes.lower.grips.get(slot)];
  assert(was !== undefined && is !== undefined, "both grips are there");
  expect(comfort).toBeCloseTo(difficultyOf(is, setup).total - difficultyOf(was, setup).total);
});

test("O8 a bar laid out moves nothing", () => {
  const edits = [{ kind: "lay-out", bar: barId("b2"), rest: true }] as const;
  expect(effortOf(board, editedBoard(board, "lower", edits), "lower").motion).toBe(-30);
});
