/** Offering a change to the other lane, and taking or leaving one. */
import type { Board, LaneId, MemberId } from "@halflap/board/board";
import { editsInPlace } from "@halflap/board/edit-place";
import { addProposal, removeProposal } from "@halflap/board/edits/proposals";
import { proposalId } from "@halflap/board/ids";
import { proposalEditsMax, proposalsMax, reasonMax } from "@halflap/board/limits";
import type { Proposal } from "@halflap/board/proposal";
import type * as Y from "yjs";
import { makeId } from "./own-id.ts";
import type { LaneIntents, ProposalIntents } from "./session.ts";

export type ProposalSource = {
  readonly document: () => Y.Doc;
  readonly board: () => Board;
  readonly me: () => MemberId;
  readonly ownLane: () => LaneId | undefined;
  readonly lane: () => LaneIntents | undefined;
  readonly mayOffer: () => boolean;
};

/** The commands, with what the answer of the server to a lane's changes means for proposals. */
export type AnsweredProposals = ProposalIntents & {
  /** The lane's changes are on the server's disk: what was taken into it stays taken. */
  settle(lane: LaneId): void;
  /** The lane's changes were refused: what was taken with them is offered again. */
  giveBack(lane: LaneId): void;
};

/** The commands; those that the person has no right to do nothing. */
export function makeProposalIntents(source: ProposalSource): AnsweredProposals {
  const { document, board, me, ownLane, lane, mayOffer } = source;
  let taken: readonly Proposal[] = [];
  const settle = (of: LaneId) => {
    taken = taken.filter((each) => each.lane !== of);
  };
  return {
    settle,
    giveBack(of) {
      const lost = taken.filter((each) => each.lane === of);
      settle(of);
      document().transact(() => {
        for (const each of lost) addProposal(document(), each);
      }, "answered");
    },
    offer(to, words, bars, edits) {
      if (!mayOffer() || bars.length === 0 || edits.length === 0) return;
      if (edits.length > proposalEditsMax || board().proposals.length >= proposalsMax) return;
      const id = proposalId(makeId());
      const line = words.replace(/\s+/g, " ").trim().slice(0, reasonMax);
      addProposal(document(), { id, lane: to, from: me(), words: line, bars, edits });
    },
    take(id) {
      const offered = board().proposals.find((each) => each.id === id);
      if (offered === undefined || offered.lane !== ownLane()) return;
      lane()?.edit(editsInPlace(board(), offered.edits));
      taken = [...taken, offered];
      // Under an origin that undo does not follow: undoing takes the change back, not the answer.
      document().transact(() => removeProposal(document(), id), "answered");
    },
    drop(id) {
      if (mayOffer()) removeProposal(document(), id);
    },
  };
}
