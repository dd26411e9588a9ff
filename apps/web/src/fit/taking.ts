/** What taking an answer does: edits of one's own lane, and offers for the other. */
import type { Board, LaneId } from "@halflap/board/board";
import { editsInPlace } from "@halflap/board/edit-place";
import { proposalEditsMax, proposalsMax } from "@halflap/board/limits";
import type { LaneEdit } from "@halflap/board/proposal";
import type { Answer } from "@halflap/fitter/answer";
import { fitWords } from "../words/fit.ts";
import { editsOf } from "./part-now.ts";

/** Changes to a lane, never empty. */
export type LaneChange = { readonly lane: LaneId; readonly edits: readonly LaneEdit[] };

export type Taking = {
  /** What becomes of one's own lane. */
  readonly own: LaneChange | undefined;
  /** What is offered to the owners of the other lanes. */
  readonly offers: readonly LaneChange[];
};

/**
 * The parts of an answer with what goes along, by what can be done about each. It is the board of
 * now that they change, whatever has been edited since they were found.
 */
export function takingOf(
  answer: Pick<Answer, "parts">,
  along: readonly LaneChange[],
  ownLane: LaneId | undefined,
  board: Board,
): Taking {
  const changed = [
    ...answer.parts.map((part) => ({ lane: part.lane, edits: editsOf(part, board) })),
    ...along.map(({ lane, edits }) => ({ lane, edits: stillOpen(edits, lane, board) })),
  ];
  const lanes = [...new Set(changed.map(({ lane }) => lane))];
  const changes = lanes.flatMap((lane): readonly LaneChange[] => {
    const edits = changed.filter((each) => each.lane === lane).flatMap((each) => each.edits);
    return edits.length === 0 ? [] : [{ lane, edits }];
  });
  return {
    own: changes.find(({ lane }) => lane === ownLane),
    offers: changes.filter(({ lane }) => lane !== ownLane),
  };
}

/** Without those whose place is gone or has been locked since. */
function stillOpen(edits: readonly LaneEdit[], lane: LaneId, board: Board): readonly LaneEdit[] {
  const { locked } = board.lanes[lane].wishes;
  return editsInPlace(board, edits).filter((edit) => {
    return edit.kind !== "grip" || !locked.has(edit.slot);
  });
}

/** Why the offers can't be made, in words; undefined when they can. */
export function whyNotOffered(taking: Taking, waiting: number): string | undefined {
  if (taking.offers.some(({ edits }) => edits.length > proposalEditsMax)) {
    return fitWords.tooMuch(proposalEditsMax);
  }
  const isFull = taking.offers.length > 0 && waiting + taking.offers.length > proposalsMax;
  return isFull ? fitWords.tooMany(proposalsMax) : undefined;
}
