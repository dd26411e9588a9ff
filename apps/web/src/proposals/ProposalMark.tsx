/** The sign of a proposal: a piece held out to a timber, not yet joined. */
import type { LaneId } from "@halflap/board/board";

/** Drawn for the eye; whoever shows it says it in words. */
export function ProposalMark(props: { readonly lane: LaneId }) {
  return (
    <svg class="proposal-mark" data-lane={props.lane} viewBox="0 0 16 16" aria-hidden="true">
      <path class="proposal-timber" d="M1 10 H5 V13 H11 V10 H15 V15 H1 Z" />
      <rect class="proposal-piece" x="5.5" y="1.5" width="5" height="6" />
    </svg>
  );
}
