/** A small sign in the lane, at the first bar that a proposal is about. */
import "./ProposalSign.css";
import type { Bar, LaneId } from "@halflap/board/board";
import { createMemo, For, Show } from "solid-js";
import { ProposalMark } from "../proposals/ProposalMark.tsx";
import { proposalElementId } from "../proposals/proposal-id.ts";
import { proposalWords } from "../words/proposals.ts";
import { useDesk } from "./desk.ts";

/** Pressing it leads to the proposal in the list. */
export function ProposalSign(props: { readonly lane: LaneId; readonly bar: Bar }) {
  const desk = useDesk();
  const here = createMemo(() =>
    desk.session.board.proposals.filter(
      (each) => each.lane === props.lane && each.bars[0] === props.bar.id,
    ),
  );
  const who = (from: string | undefined) =>
    desk.session.board.members.find(({ id }) => id === from)?.name ?? proposalWords.someone;
  const show = (id: string) => {
    const entry = document.getElementById(id);
    entry?.scrollIntoView({ block: "nearest" });
    entry?.focus({ preventScroll: true });
  };
  return (
    <Show when={here().length > 0}>
      <div class="proposal-signs" role="gridcell">
        <For each={here()}>
          {(proposal) => (
            <button
              type="button"
              class="proposal-sign"
              tabindex={-1}
              aria-label={proposalWords.sign(who(proposal.from), props.bar.number)}
              title={proposal.words}
              onClick={() => show(proposalElementId(proposal.id))}
            >
              <ProposalMark lane={props.lane} />
            </button>
          )}
        </For>
      </div>
    </Show>
  );
}
