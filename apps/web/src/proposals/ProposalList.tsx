/** What the players offer each other: taken or left by the lane's owner, or taken back. */
import "./ProposalList.css";
import type { Proposal } from "@halflap/board/proposal";
import { pretty } from "@halflap/theory/display";
import { createMemo, For, Match, Show, Switch } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { laneInSentence } from "../board/owner.ts";
import { findingsWords } from "../words/findings.ts";
import { proposalWords } from "../words/proposals.ts";
import { ChangePictures } from "./ChangePictures.tsx";
import { ProposalMark } from "./ProposalMark.tsx";
import { proposalElementId } from "./proposal-id.ts";
import { type Standing, standingOf } from "./standing.ts";

const standingWords: Readonly<Record<Standing, string | undefined>> = {
  open: undefined,
  "other-chord": proposalWords.otherChord,
  "partly-gone": proposalWords.partlyGone,
  gone: proposalWords.gone,
  already: proposalWords.already,
};

/** Above the findings; drawn while somebody offers something. */
export function ProposalList() {
  const desk = useDesk();
  const { board } = desk.session;
  return (
    <section class="proposals" aria-label={proposalWords.heading}>
      <h2 class="heading">{proposalWords.heading}</h2>
      <ul>
        <For each={board.proposals}>{(proposal) => <OneProposal proposal={proposal} />}</For>
      </ul>
    </section>
  );
}

function OneProposal(props: { readonly proposal: Proposal }) {
  const desk = useDesk();
  const { session } = desk;
  const isMine = () => props.proposal.from === session.me().id;
  const standing = createMemo(() => standingOf(session.board, props.proposal));
  const who = () =>
    session.board.members.find(({ id }) => id === props.proposal.from)?.name ??
    proposalWords.someone;
  const firstBar = createMemo(() => {
    const [first] = props.proposal.bars;
    const bars = session.board.sections.flatMap((section) => section.bars);
    return bars.find((bar) => bar.id === first)?.number;
  });
  const headline = () => {
    const whose = laneInSentence(session, props.proposal.lane);
    return isMine() ? proposalWords.youOffer(whose) : proposalWords.offers(who(), whose);
  };
  return (
    <li
      class="proposal"
      id={proposalElementId(props.proposal.id)}
      data-lane={props.proposal.lane}
      tabindex={-1}
    >
      <p class="small">
        <ProposalMark lane={props.proposal.lane} /> <span class="strong">{headline()}</span>
        <Show when={firstBar()}>
          {(number) => <span class="soft">, {findingsWords.bar(number())}</span>}
        </Show>
      </p>
      <p>{pretty(props.proposal.words)}</p>
      <ChangePictures lane={props.proposal.lane} edits={props.proposal.edits} />
      <Show when={standingWords[standing()]}>{(words) => <p class="small soft">{words()}</p>}</Show>
      <Answers proposal={props.proposal} isMine={isMine()} standing={standing()} />
    </li>
  );
}

/** What this person may do about it; for a listener nothing. */
function Answers(props: {
  readonly proposal: Proposal;
  readonly isMine: boolean;
  readonly standing: Standing;
}) {
  const desk = useDesk();
  const { proposals } = desk.session;
  const canBeTaken = () => props.standing !== "gone" && props.standing !== "already";
  /** The button goes with the proposal; the list of findings is where one reads on. */
  const answer = (act: () => void) => {
    act();
    document.getElementById("findings")?.focus();
  };
  const take = () => answer(() => proposals.take(props.proposal.id));
  const drop = () => answer(() => proposals.drop(props.proposal.id));
  return (
    <Switch>
      <Match when={desk.mayWrite(props.proposal.lane)}>
        <div class="finding-acts">
          <Show when={canBeTaken()}>
            <button
              type="button"
              class="button main small"
              aria-label={proposalWords.takeThis(props.proposal.words)}
              onClick={take}
            >
              {proposalWords.take}
            </button>
          </Show>
          <button
            type="button"
            class="button small"
            aria-label={proposalWords.leaveThis(props.proposal.words)}
            onClick={drop}
          >
            {proposalWords.leave}
          </button>
        </div>
      </Match>
      <Match when={props.isMine && desk.session.mayEditChart()}>
        <div class="finding-acts">
          <span class="small soft proposal-waiting">{proposalWords.waiting}</span>
          <button
            type="button"
            class="button small"
            aria-label={proposalWords.takeBackThis(props.proposal.words)}
            onClick={drop}
          >
            {proposalWords.takeBack}
          </button>
        </div>
      </Match>
    </Switch>
  );
}
