/** Both lanes, who owns each, and taking, leaving or handing over one. */
import { type LaneId, laneIds, type MemberId } from "@halflap/board/board";
import { mayTake } from "@halflap/wire/permissions";
import { createSignal, For, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { laneWords } from "../words/app.ts";
import { shareWords } from "../words/share.ts";

/** A refusal ("somebody was faster") is shown here, in the server's words. */
export function LaneList(props: { readonly session: Session }): JSX.Element {
  const [problem, setProblem] = createSignal<string>();
  const act = async (answer: ReturnType<Session["claim"]>) => {
    setProblem((await answer)?.problem);
  };
  return (
    <section class="share-part" aria-labelledby="share-lanes">
      <h3 id="share-lanes" class="large strong">
        {shareWords.lanes}
      </h3>
      <p class="problem" role="alert">
        {problem() ?? ""}
      </p>
      <ul class="share-rows">
        <For each={laneIds}>
          {(lane) => (
            <li class="share-row">
              <LaneOwner session={props.session} lane={lane} />
              <LaneActs session={props.session} lane={lane} act={act} />
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}

function LaneOwner(props: { readonly session: Session; readonly lane: LaneId }): JSX.Element {
  const owner = () => {
    const { members, lanes } = props.session.board;
    return members.find(({ id }) => id === lanes[props.lane].owner);
  };
  return (
    <p class="share-lane">
      <span class="share-sign" data-lane={props.lane} />
      <span class="strong">{laneWords[props.lane]}</span>
      <span classList={{ soft: owner() === undefined }}>
        {owner()?.name ?? shareWords.free}
        {owner()?.id === props.session.me().id ? ` (${shareWords.you})` : ""}
      </span>
    </p>
  );
}

function LaneActs(props: {
  readonly session: Session;
  readonly lane: LaneId;
  readonly act: (answer: ReturnType<Session["claim"]>) => void;
}): JSX.Element {
  const { session } = props;
  const owner = () => session.board.lanes[props.lane].owner;
  const isMine = () => owner() === session.me().id;
  const mayClaim = () =>
    owner() === undefined &&
    session.ownLane() === undefined &&
    mayTake(session.me().role, "claim-lane");
  const mayGive = () =>
    (isMine() && mayTake(session.me().role, "hand-over-lane")) ||
    mayTake(session.me().role, "reassign-lane");
  const takers = () =>
    session.board.members.filter(({ id, role }) => role !== "listener" && id !== owner());
  return (
    <div class="share-acts">
      <Show when={mayClaim()}>
        <button
          type="button"
          class="button main"
          onClick={() => props.act(session.claim(props.lane))}
        >
          {shareWords.claim}
        </button>
      </Show>
      <Show when={isMine()}>
        <button
          type="button"
          class="button"
          title={shareWords.releaseHint}
          onClick={() => props.act(session.release(props.lane))}
        >
          {shareWords.release}
        </button>
      </Show>
      <Show when={mayGive() && takers().length > 0}>
        <HandOver
          label={`${laneWords[props.lane]}: ${shareWords.handOver}`}
          takers={takers()}
          mayFree={owner() !== undefined && !isMine()}
          onGive={(to) => props.act(session.handOver(props.lane, to))}
        />
      </Show>
    </div>
  );
}

const nobody = "";

function HandOver(props: {
  readonly label: string;
  readonly takers: readonly { readonly id: MemberId; readonly name: string }[];
  readonly mayFree: boolean;
  readonly onGive: (to: MemberId | undefined) => void;
}): JSX.Element {
  return (
    <select
      class="field share-give"
      aria-label={props.label}
      onChange={(event) => {
        const { selectedIndex } = event.currentTarget;
        event.currentTarget.selectedIndex = 0;
        if (selectedIndex === 0) return;
        props.onGive(props.takers[selectedIndex - 1]?.id);
      }}
    >
      <option value={nobody}>{shareWords.handOver}</option>
      <For each={props.takers}>{({ id, name }) => <option value={id}>{name}</option>}</For>
      <Show when={props.mayFree}>
        <option value={nobody}>{shareWords.nobody}</option>
      </Show>
    </select>
  );
}
