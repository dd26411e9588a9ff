/** The id by which the sign in a lane finds its proposal in the list. */
import type { Proposal } from "@halflap/board/proposal";

/** The id of the list's entry in the page. */
export function proposalElementId(id: Proposal["id"]): string {
  return `proposal-${id}`;
}
