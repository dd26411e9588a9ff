/** Changes offered to the other player's lane, on the board document. */
import { assert } from "@halflap/theory/units";
import type * as Y from "yjs";
import { isStoredId } from "../ids.ts";
import type { Proposal } from "../proposal.ts";
import { proposalCopy, songShapes } from "../song-shape.ts";
import { editChart } from "./stored.ts";

/** Offers a change; its lane stays as it is until its owner takes it. */
export function addProposal(doc: Y.Doc, proposal: Proposal): void {
  const { id, from, bars } = proposal;
  assert(bars.length > 0 && proposal.edits.length > 0, "a proposal changes something somewhere");
  const stored = proposalCopy(proposal);
  assert(songShapes.proposals({ [id]: stored }, "").ok, "a proposal that can be stored");
  assert(from === undefined || isStoredId(from), "a proposal is offered by a member");
  editChart(doc, ({ proposals }) => {
    proposals.set(id, from === undefined ? stored : { ...stored, from });
  });
}

/** Takes a proposal away, whether it was taken, left or withdrawn. */
export function removeProposal(doc: Y.Doc, proposal: Proposal["id"]): void {
  editChart(doc, ({ proposals }) => proposals.delete(proposal));
}
