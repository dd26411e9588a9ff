/** What taking an answer does: edits of one's own lane, and offers for the other. */
import type { LaneId } from "@halflap/board/board";
import { proposalEditsMax, proposalsMax } from "@halflap/board/limits";
import type { LaneEdit } from "@halflap/board/proposal";
import type { Answer } from "@halflap/fitter/answer";
import { fitWords } from "../words/fit.ts";

/** Changes to a lane, never empty. */
export type LaneChange = { readonly lane: LaneId; readonly edits: readonly LaneEdit[] };

export type Taking = {
  /** What becomes of one's own lane. */
  readonly own: LaneChange | undefined;
  /** What is offered to the owners of the other lanes. */
  readonly offers: readonly LaneChange[];
};

/** The parts of an answer with what goes along, by what can be done about each. */
export function takingOf(
  answer: Pick<Answer, "parts">,
  along: readonly LaneChange[],
  ownLane: LaneId | undefined,
): Taking {
  const lanes = [...new Set([...answer.parts, ...along].map(({ lane }) => lane))];
  const changes = lanes.flatMap((lane): readonly LaneChange[] => {
    const of = (from: readonly LaneChange[]) =>
      from.filter((each) => each.lane === lane).flatMap(({ edits }) => edits);
    const edits = [...of(answer.parts), ...of(along)];
    return edits.length === 0 ? [] : [{ lane, edits }];
  });
  return {
    own: changes.find(({ lane }) => lane === ownLane),
    offers: changes.filter(({ lane }) => lane !== ownLane),
  };
}

/** Why the offers can't be made, in words; undefined when they can. */
export function whyNotOffered(taking: Taking, waiting: number): string | undefined {
  if (taking.offers.some(({ edits }) => edits.length > proposalEditsMax)) {
    return fitWords.tooMuch(proposalEditsMax);
  }
  const isFull = taking.offers.length > 0 && waiting + taking.offers.length > proposalsMax;
  return isFull ? fitWords.tooMany(proposalsMax) : undefined;
}
