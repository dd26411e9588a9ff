/** Offering a change to the other lane, and taking or leaving one. */
import type { Board, LaneId, MemberId, SlotId } from "@halflap/board/board";
import { editsInPlace } from "@halflap/board/edit-place";
import { addProposal, removeProposal } from "@halflap/board/edits/proposals";
import { proposalId } from "@halflap/board/ids";
import {
  type KeptProposal,
  type KeptProposals,
  keptProposals,
  proposalsKept,
} from "@halflap/board/kept-proposals";
import { proposalEditsMax, proposalsMax, reasonMax } from "@halflap/board/limits";
import type { LaneEdit, Proposal } from "@halflap/board/proposal";
import type { BoardId } from "@halflap/wire/api";
import type * as Y from "yjs";
import { chordAt } from "./lane-intents.ts";
import { makeId } from "./own-id.ts";
import { remember, remembered } from "./remembered.ts";
import type { LaneIntents, ProposalIntents } from "./session.ts";
import { shortLine } from "./short-line.ts";

export type ProposalSource = {
  readonly id: BoardId;
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
  const unanswered = keepTaken(source.id);
  return {
    settle: unanswered.forget,
    giveBack(of) {
      const lost = unanswered.read(board().members).filter((each) => each.lane === of);
      unanswered.forget(of);
      document().transact(() => {
        for (const each of lost) addProposal(document(), each);
      }, "answered");
    },
    offer(to, words, bars, edits) {
      if (!mayOffer() || bars.length === 0 || edits.length === 0) return;
      if (edits.length > proposalEditsMax || board().proposals.length >= proposalsMax) return;
      const id = proposalId(makeId());
      const line = shortLine(words, reasonMax);
      const offered = { lane: to, from: me(), words: line, bars, edits };
      addProposal(document(), { ...offered, id, chords: chordsOf(board(), edits) });
    },
    take(id) {
      const offered = board().proposals.find((each) => each.id === id);
      if (offered === undefined || offered.lane !== ownLane()) return;
      lane()?.edit(editsInPlace(board(), offered.edits), offered.chords);
      unanswered.add(offered);
      // Under an origin that undo does not follow: undoing takes the change back, not the answer.
      document().transact(() => removeProposal(document(), id), "answered");
    },
    drop(id) {
      if (mayOffer()) removeProposal(document(), id);
    },
  };
}

/** The chords for which the grips among some changes are meant. */
function chordsOf(board: Board, edits: readonly LaneEdit[]): ReadonlyMap<SlotId, string> {
  return new Map(
    edits.flatMap((edit): readonly [SlotId, string][] => {
      if (edit.kind !== "grip" || edit.grip === undefined) return [];
      const chord = chordAt(board, edit.slot);
      return chord === undefined ? [] : [[edit.slot, chord]];
    }),
  );
}

/**
 * What was taken into a lane and waits for the server's answer. This browser remembers it, as it
 * does the changes to the lane themselves: the answer may come after the page was loaded again.
 */
function keepTaken(board: BoardId) {
  const name = `taken:${board}`;
  let kept = remembered(name, keptValue) ?? {};
  const keep = (next: KeptProposals) => {
    kept = next;
    remember(name, Object.keys(next).length === 0 ? undefined : next);
  };
  return {
    add: (proposal: Proposal) => keep({ ...kept, ...keptProposals([proposal]) }),
    /** Who offered one counts while a member. */
    read: (members: Board["members"]) => proposalsKept(kept, members),
    forget(lane: LaneId): void {
      const left = Object.entries(kept).filter(([, each]) => each.lane !== lane);
      if (left.length < Object.keys(kept).length) keep(Object.fromEntries(left));
    },
  };
}

function keptValue(value: unknown): KeptProposals | undefined {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return undefined;
  const entries = Object.entries(value).filter(
    (entry): entry is [string, KeptProposal] => typeof entry[1] === "object" && entry[1] !== null,
  );
  return Object.fromEntries(entries);
}
