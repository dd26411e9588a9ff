/** What could be done about a finding: each way with before and after, what it brings and costs. */
import "./WaysOut.css";
import type { LaneId } from "@halflap/board/board";
import { proposalEditsMax, proposalsMax } from "@halflap/board/limits";
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { pretty } from "@halflap/theory/display";
import { createMemo, createSignal, For, Match, Show, Switch } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { KeyedFor } from "../board/KeyedFor.tsx";
import { laneOwner, whosePart } from "../board/owner.ts";
import { HearButton } from "../listen/HearButton.tsx";
import { hearWhenPointed, pointedBars } from "../listen/hear-when-pointed.ts";
import { ChangePictures } from "../proposals/ChangePictures.tsx";
import { sameEdits } from "../proposals/changes.ts";
import { boardWords } from "../words/board.ts";
import { findingsWords } from "../words/findings.ts";
import { listenWords } from "../words/listen.ts";
import { waysWords } from "../words/ways.ts";
import { createWays } from "./create-ways.ts";
import { SeverityMark } from "./SeverityMark.tsx";
import { costWords, countsIn } from "./way-cost.ts";

/** What is shown before one asks for more. */
const firstShown = 3;

/** Nothing for a note, which needs no way out. */
export function WaysOut(props: { readonly finding: Finding }) {
  const desk = useDesk();
  const state = createWays(desk.session, () => props.finding);
  const [showsAll, setShowsAll] = createSignal(false);
  const ways = createMemo(() => {
    const now = state();
    return now.kind === "some" ? now.ways : [];
  });
  const shown = () => (showsAll() ? ways() : ways().slice(0, firstShown));
  return (
    <Show when={state().kind !== "quiet"}>
      <section class="ways" aria-label={findingsWords.ways}>
        <Switch>
          <Match when={state().kind === "working"}>
            <p class="small soft" role="status">
              {waysWords.working}
            </p>
          </Match>
          <Match when={state().kind === "none"}>
            <p class="small soft">{waysWords.none}</p>
          </Match>
          <Match when={ways().length > 0}>
            <h4 class="small strong">{findingsWords.ways}</h4>
            <ol class="way-list">
              <KeyedFor each={shown()} keyOf={({ id }) => id}>
                {(way) => <Way way={way()} finding={props.finding} />}
              </KeyedFor>
            </ol>
            <Show when={shown().length < ways().length}>
              <button type="button" class="button bare small" onClick={() => setShowsAll(true)}>
                {waysWords.more(ways().length - shown().length)}
              </button>
            </Show>
          </Match>
        </Switch>
      </section>
    </Show>
  );
}

function Way(props: { readonly way: WayOut; readonly finding: Finding }) {
  const desk = useDesk();
  const cost = () => costWords(props.way);
  const pointed = () => {
    const { lane, edits } = props.way;
    return pointedBars(desk.session.board, props.finding.bars, { lane, edits });
  };
  return (
    <li class="way" data-lane={props.way.lane} ref={hearWhenPointed(pointed)}>
      <p class="way-words">
        <span class="lane-sign" data-lane={props.way.lane} aria-hidden="true" />
        <span>
          <span class="soft">{whosePart(desk.session, props.way.lane)}: </span>
          {pretty(props.way.words)}
        </span>
      </p>
      <ChangePictures lane={props.way.lane} edits={props.way.edits} />
      <div class="hear-both">
        <HearButton
          words={listenWords.hearBefore}
          bars={props.finding.bars}
          lane={props.way.lane}
          edits={[]}
        />
        <HearButton
          words={listenWords.hearAfter}
          spoken={props.way.words}
          bars={props.finding.bars}
          lane={props.way.lane}
          edits={props.way.edits}
        />
      </div>
      <Effect label={waysWords.removes} findings={props.way.removes} />
      <Effect label={waysWords.causes} findings={props.way.causes} />
      <Show when={cost()}>{(words) => <p class="small soft">{words()}</p>}</Show>
      <WayAct {...props} />
    </li>
  );
}

/** Counts by sign; the sentences behind them are a press away. */
function Effect(props: { readonly label: string; readonly findings: readonly Finding[] }) {
  return (
    <Show when={props.findings.length > 0}>
      <details class="way-effect small">
        <summary>
          <span class="soft">{props.label}</span>
          <For each={countsIn(props.findings)}>
            {({ sign, words }) => (
              <span class="way-count">
                <SeverityMark severity={sign} />
                {words}
              </span>
            )}
          </For>
        </summary>
        <ul>
          <For each={props.findings}>{(finding) => <li class="soft">{finding.words}</li>}</For>
        </ul>
      </details>
    </Show>
  );
}

/** Done on one's own lane, offered for the other's; nothing for a listener. */
function WayAct(props: { readonly way: WayOut; readonly finding: Finding }) {
  const desk = useDesk();
  const lane = () => props.way.lane;
  const owner = () => laneOwner(desk.session, lane());
  const isOffered = createMemo(() =>
    desk.session.board.proposals.some(
      (each) => each.lane === lane() && sameEdits(each.edits, props.way.edits),
    ),
  );
  const isFull = () => desk.session.board.proposals.length >= proposalsMax;
  const offer = () => {
    const { words, edits } = props.way;
    desk.session.proposals.offer(lane(), words, props.finding.bars, edits);
  };
  return (
    <Switch>
      <Match when={desk.mayWrite(lane())}>
        <button
          type="button"
          class="button small way-act"
          aria-label={waysWords.doThis(props.way.words)}
          onClick={() => desk.session.lane()?.edit(props.way.edits)}
        >
          {waysWords.doIt}
        </button>
      </Match>
      <Match when={isOffered()}>
        <p class="small strong way-act" role="status">
          {offeredWords(lane(), owner()?.name)}
        </p>
      </Match>
      <Match when={desk.session.mayEditChart() && props.way.edits.length > proposalEditsMax}>
        <p class="small soft way-act">{waysWords.tooMuch(proposalEditsMax)}</p>
      </Match>
      <Match when={desk.session.mayEditChart() && isFull()}>
        <p class="small soft way-act">{waysWords.tooMany(proposalsMax)}</p>
      </Match>
      <Match when={desk.session.mayEditChart()}>
        <button type="button" class="button small way-act" onClick={offer}>
          {owner()
            ? waysWords.offerTo(owner()?.name ?? "")
            : waysWords.offerToLane(boardWords.lanesShort[lane()])}
        </button>
      </Match>
    </Switch>
  );
}

function offeredWords(lane: LaneId, name: string | undefined): string {
  return name === undefined
    ? waysWords.offeredToLane(boardWords.lanesShort[lane])
    : waysWords.offered(name);
}
