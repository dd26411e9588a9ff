/** Patterns that lock with the other part's, folded away until somebody asks for them. */
import "./InterlockIdeas.css";
import type { BarId } from "@halflap/board/board";
import { strumId } from "@halflap/board/ids";
import { proposalsMax, strumsMax } from "@halflap/board/limits";
import type { LaneEdit } from "@halflap/board/proposal";
import type { StrumIdea } from "@halflap/fitter/interlock";
import { createMemo, createSignal, For, Match, onCleanup, Show, Switch } from "solid-js";
import { otherLane, useDesk } from "../board/desk.ts";
import { laneOwner } from "../board/owner.ts";
import { HearButton } from "../listen/HearButton.tsx";
import { boardWords } from "../words/board.ts";
import { interlockWords } from "../words/interlock.ts";
import { listenWords } from "../words/listen.ts";
import { playingWords } from "../words/playing.ts";
import { waysWords } from "../words/ways.ts";
import { createIdeas } from "./create-ideas.ts";
import type { Playing } from "./create-playing.ts";
import { openIdeas } from "./ideas-line.ts";
import { isOffered } from "./offered-idea.ts";
import { StrumPicture } from "./StrumPicture.tsx";

/** A press sets one for the section; for the other's lane it can be offered, or only heard. */
export function InterlockIdeas(props: { readonly playing: Playing }) {
  const desk = useDesk();
  const [isOpen, setOpen] = createSignal(false);
  const [said, setSaid] = createSignal("");
  let head: HTMLElement | undefined;
  const asked = createMemo(
    () => {
      const section = props.playing.section()?.id;
      return isOpen() && section ? { lane: props.playing.laneId(), section } : undefined;
    },
    undefined,
    { equals: (a, b) => a?.lane === b?.lane && a?.section === b?.section },
  );
  const line = openIdeas();
  onCleanup(line.close);
  const state = createIdeas(desk.session.board, asked, line.ask);
  const ideas = createMemo(() => {
    const now = state();
    return now.kind === "some" ? now.ideas : [];
  });
  const section = () => props.playing.section()?.name ?? "";
  const keepsOwn = () => props.playing.inForce()?.from === "bar";
  const heading = () => {
    const other = otherLane(props.playing.laneId());
    if (desk.session.ownLane() === other) return interlockWords.heading(interlockWords.your);
    const owner = laneOwner(desk.session, other)?.name;
    const lane = interlockWords.ofLane(boardWords.lanesShort[other]);
    return interlockWords.heading(owner ? interlockWords.of(owner) : lane);
  };
  const take = (idea: StrumIdea) => {
    props.playing.takeIdea(idea.strum);
    setSaid(interlockWords.taken(idea.strum.name, section()));
    // The list is made anew: the keys stay where the next one can be reached.
    head?.focus({ preventScroll: true });
  };
  return (
    <Show when={props.playing.section()}>
      <details
        class="ready-strums interlock"
        onToggle={(event) => {
          setOpen(event.currentTarget.open);
          setSaid("");
        }}
      >
        <summary ref={head}>{heading()}</summary>
        <p class="small soft">
          {props.playing.mayWrite() ? interlockWords.hint(section()) : interlockWords.hintRead}{" "}
          <Show when={keepsOwn()}>{interlockWords.keepsOwn}</Show>
        </p>
        <p class="small strong interlock-said" role="status">
          <Show when={state().kind !== "working"} fallback={interlockWords.working}>
            {said()}
          </Show>
        </p>
        <Switch>
          <Match when={state().kind === "failed"}>
            <p class="small problem">{interlockWords.failed}</p>
          </Match>
          <Match when={ideas().length > 0}>
            <ol class="strum-list" aria-label={interlockWords.list}>
              <For each={ideas()}>
                {(idea) => <Idea playing={props.playing} idea={idea} onTake={() => take(idea)} />}
              </For>
            </ol>
            <Show when={props.playing.mayWrite() && !props.playing.hasRoomForStrum()}>
              <p class="small soft">{playingWords.libraryFull(strumsMax)}</p>
            </Show>
          </Match>
          <Match when={state().kind === "some"}>
            <p class="small soft">{interlockWords.none}</p>
          </Match>
        </Switch>
      </details>
    </Show>
  );
}

/** The first bars of a section say enough of a rhythm. */
const heardBars = 4;

function Idea(props: {
  readonly playing: Playing;
  readonly idea: StrumIdea;
  readonly onTake: () => void;
}) {
  const desk = useDesk();
  const id = strumId(desk.session.makeId());
  const strum = () => ({ ...props.idea.strum, id });
  const edits = createMemo((): readonly LaneEdit[] => {
    const section = props.playing.section()?.id;
    if (section === undefined) return [];
    const place = { kind: "section", section } as const;
    return [
      { kind: "strum", strum: strum() },
      { kind: "strum-at", place, strum: id },
    ];
  });
  const bars = () => props.playing.section()?.bars.map((bar) => bar.id) ?? [];
  const picture = () => (
    <>
      <span class="strum-words strong">{props.idea.strum.name}</span>
      <StrumPicture strum={props.idea.strum} beat={props.playing.beat()} />
    </>
  );
  return (
    <li class="interlock-idea">
      <Show
        when={props.playing.mayWrite()}
        fallback={<div class="strum-pick interlock-picture">{picture()}</div>}
      >
        <button
          type="button"
          class="strum-pick"
          aria-describedby={`idea-${id}`}
          disabled={!props.playing.hasRoomForStrum()}
          onClick={() => props.onTake()}
        >
          {picture()}
        </button>
      </Show>
      <div class="interlock-words">
        <p id={`idea-${id}`} class="small soft">
          {props.idea.words}
        </p>
        <HearButton
          words={listenWords.hear}
          spoken={props.idea.strum.name}
          bars={bars().slice(0, heardBars)}
          lane={props.playing.laneId()}
          edits={edits()}
        />
        <Show when={!props.playing.mayWrite()}>
          <Offer playing={props.playing} idea={props.idea} edits={edits()} bars={bars()} />
        </Show>
      </div>
    </li>
  );
}

/** For the other's lane; nothing for a listener. */
function Offer(props: {
  readonly playing: Playing;
  readonly idea: StrumIdea;
  readonly edits: readonly LaneEdit[];
  readonly bars: readonly BarId[];
}) {
  const desk = useDesk();
  const lane = () => props.playing.laneId();
  const owner = () => laneOwner(desk.session, lane())?.name;
  const laneName = () => boardWords.lanesShort[lane()];
  const isOut = createMemo(() =>
    isOffered(desk.session.board.proposals, lane(), props.playing.section()?.id, props.idea.strum),
  );
  const button = () => {
    const name = owner();
    return name === undefined ? waysWords.offerToLane(laneName()) : waysWords.offerTo(name);
  };
  const offered = () => {
    const name = owner();
    return name === undefined ? waysWords.offeredToLane(laneName()) : waysWords.offered(name);
  };
  const offer = () => {
    const section = props.playing.section()?.name ?? "";
    const words = interlockWords.offer(props.idea.strum.name, section);
    desk.session.proposals.offer(lane(), words, props.bars, props.edits);
  };
  return (
    <Switch>
      <Match when={isOut()}>
        <p class="small strong" role="status">
          {offered()}
        </p>
      </Match>
      <Match when={desk.session.mayEditChart()}>
        <button
          type="button"
          class="button small"
          aria-label={interlockWords.offerNamed(button(), props.idea.strum.name)}
          disabled={desk.session.board.proposals.length >= proposalsMax}
          onClick={offer}
        >
          {button()}
        </button>
      </Match>
    </Switch>
  );
}
