/** Ways out under test: asked for, made, and checked from nothing. */
import type { Board } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import { assert } from "@halflap/theory/units";
import { check } from "../check.ts";
import type { Finding, RuleId } from "../finding.ts";
import { totalOf } from "../ways/weights.ts";
import { type WayOut, type WaysOutOptions, waysOut } from "../ways-out.ts";

/** The first finding of a rule; a test that expects one fails without. */
export function foundBy(board: Board, rule: RuleId): Finding {
  const finding = check(board).find((each) => each.rule === rule);
  assert(finding !== undefined, `nothing found by ${rule}`);
  return finding;
}

/** The ways out of the first finding of a rule. */
export function waysOf(board: Board, rule: RuleId, options?: WaysOutOptions): readonly WayOut[] {
  return waysOut(board, foundBy(board, rule), options);
}

/** The board after a way out was taken. */
export function taken(board: Board, way: WayOut): Board {
  return editedBoard(board, way.lane, way.edits);
}

/** By how much taking the way lowers what all findings weigh. */
export function relief(board: Board, way: WayOut): number {
  return totalOf(check(board)) - totalOf(check(taken(board, way)));
}
