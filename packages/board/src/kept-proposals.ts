/** Proposals as plain values, to be kept beside the documents, and back. */
import type { MemberId } from "./board.ts";
import type { Proposal } from "./proposal.ts";
import { readProposals } from "./proposal-state.ts";
import { proposalCopy } from "./song-shape.ts";

/** What JSON can carry of a proposal; read back, nothing of it is sure. */
export type KeptProposal = { readonly lane?: unknown };

/** By their ids. */
export type KeptProposals = Readonly<Record<string, KeptProposal>>;

/** The proposals as they are kept. */
export function keptProposals(proposals: readonly Proposal[]): KeptProposals {
  return Object.fromEntries(
    proposals.map((proposal) => [proposal.id, { ...proposalCopy(proposal), from: proposal.from }]),
  );
}

/** Reads them with the suspicion with which documents are read: what makes no sense is left out. */
export function proposalsKept(
  kept: KeptProposals,
  members: readonly { readonly id: MemberId }[],
): readonly Proposal[] {
  return readProposals(new Map(Object.entries(kept)), members);
}
