/** How a proposal stands on the board as it is now. */
import type { Board } from "@halflap/board/board";
import type { Proposal } from "@halflap/board/proposal";
import { changesOf, isIdle } from "./changes.ts";
import { placesOn } from "./chart-places.ts";

/**
 * open = can be taken as offered; other-chord = so too, but a grip of it was meant for a chord that
 * is another now; already = the lane is like this; gone = nothing is left.
 */
export type Standing = "open" | "other-chord" | "partly-gone" | "gone" | "already";

type Offered = Pick<Proposal, "lane" | "edits" | "chords">;

/** What is left to take of a proposal. */
export function standingOf(board: Board, proposal: Offered): Standing {
  const changes = changesOf(board, proposal.lane, proposal.edits);
  const left = changes.filter((change) => change.kind !== "gone");
  if (left.length === 0) return "gone";
  if (left.every(isIdle)) return "already";
  if (isForOthers(board, proposal)) return "other-chord";
  return left.length < changes.length ? "partly-gone" : "open";
}

function isForOthers(board: Board, { chords }: Offered): boolean {
  if (chords === undefined) return false;
  const { slots } = placesOn(board)();
  return [...chords].some(([id, chord]) => {
    const slot = slots.get(id)?.slot;
    return slot !== undefined && slot.text !== chord;
  });
}
