/** How a proposal stands on the board as it is now. */
import type { Board } from "@halflap/board/board";
import type { Proposal } from "@halflap/board/proposal";
import { changesOf, isIdle } from "./changes.ts";

/** open = can be taken as offered; already = the lane is like this; gone = nothing is left. */
export type Standing = "open" | "partly-gone" | "gone" | "already";

/** What is left to take of a proposal. */
export function standingOf(board: Board, proposal: Pick<Proposal, "lane" | "edits">): Standing {
  const changes = changesOf(board, proposal.lane, proposal.edits);
  const left = changes.filter((change) => change.kind !== "gone");
  if (left.length === 0) return "gone";
  if (left.every(isIdle)) return "already";
  return left.length < changes.length ? "partly-gone" : "open";
}
