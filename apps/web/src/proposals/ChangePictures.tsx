/** Before and after of changes to a lane: grips, strokes and fills drawn, the rest in words. */
import "./ChangePictures.css";
import type { LaneId } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { Fill, Strum } from "@halflap/board/playing";
import type { LaneEdit } from "@halflap/board/proposal";
import { pretty } from "@halflap/theory/display";
import { type Grip, printGrip } from "@halflap/theory/grip";
import { createMemo, createSignal, For, type JSX, Match, Show, Switch } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { GripDiagram } from "../neck/GripDiagram.tsx";
import { fillFigure } from "../playing/playing-figure.ts";
import { StrumPicture } from "../playing/StrumPicture.tsx";
import { TabPicture, tabHeight } from "../playing/TabPicture.tsx";
import { changeWords } from "../words/changes.ts";
import { type Change, changesOf, isIdle } from "./changes.ts";

/** More places than these are counted until one asks for them. */
const shownMax = 3;

/** What would be as it is, is left out. */
export function ChangePictures(props: {
  readonly lane: LaneId;
  readonly edits: readonly LaneEdit[];
}) {
  const desk = useDesk();
  const changes = createMemo(() =>
    changesOf(desk.session.board, props.lane, props.edits).filter(
      (change) => change.kind !== "gone" && !isIdle(change),
    ),
  );
  const [showsAll, setShowsAll] = createSignal(false);
  const shown = () => (showsAll() ? changes() : changes().slice(0, shownMax));
  return (
    <div class="changes">
      <For each={shown()}>{(change) => <ChangePicture change={change} lane={props.lane} />}</For>
      <Show when={shown().length < changes().length}>
        <button type="button" class="button bare small" onClick={() => setShowsAll(true)}>
          {changeWords.more(changes().length - shown().length)}
        </button>
      </Show>
    </div>
  );
}

function ChangePicture(props: { readonly change: Change; readonly lane: LaneId }) {
  const of = <K extends Change["kind"]>(kind: K) => {
    const { change } = props;
    const isKind = (each: Change): each is Extract<Change, { kind: K }> => each.kind === kind;
    return isKind(change) ? change : undefined;
  };
  return (
    <Switch>
      <Match when={of("grip")}>
        {(change) => (
          <Pair
            where={change().where}
            before={<GripPicture grip={change().before} lane={props.lane} />}
            after={<GripPicture grip={change().after} lane={props.lane} />}
          />
        )}
      </Match>
      <Match when={of("strum")}>
        {(change) => (
          <Pair
            where={change().where}
            isWide
            before={<Strokes strum={change().before} />}
            after={<Strokes strum={change().after} />}
          />
        )}
      </Match>
      <Match when={of("fill")}>
        {(change) => (
          <Pair
            where={change().where}
            isWide
            before={<FillPicture fill={change().before} lane={props.lane} />}
            after={<FillPicture fill={change().after} lane={props.lane} />}
          />
        )}
      </Match>
      <Match when={of("said")}>{(change) => <p class="small">{change().words}</p>}</Match>
    </Switch>
  );
}

/** The same place twice, joined by an arrow. */
function Pair(props: {
  readonly where: string;
  readonly isWide?: boolean;
  readonly before: JSX.Element;
  readonly after: JSX.Element;
}) {
  return (
    <figure class="change" data-wide={props.isWide ? "" : undefined}>
      <figcaption class="small soft">{pretty(props.where)}</figcaption>
      <div class="change-before">
        <span class="spoken">{changeWords.before}: </span>
        {props.before}
      </div>
      <svg class="change-arrow" viewBox="0 0 20 10" aria-hidden="true">
        <path d="M1 5 H18 M14 1.5 18 5 14 8.5" />
      </svg>
      <div class="change-after">
        <span class="spoken">{changeWords.after}: </span>
        {props.after}
      </div>
    </figure>
  );
}

function GripPicture(props: { readonly grip: Grip | undefined; readonly lane: LaneId }) {
  const desk = useDesk();
  return (
    <Show when={props.grip} fallback={<span class="small soft">{changeWords.noGrip}</span>}>
      {(grip) => (
        <>
          <GripDiagram
            grip={grip()}
            setup={desk.session.board.lanes[props.lane].setup}
            lane={props.lane}
          />
          <span class="fret-string">{printGrip(grip())}</span>
        </>
      )}
    </Show>
  );
}

function Strokes(props: { readonly strum: Strum | undefined }) {
  const desk = useDesk();
  return (
    <Show when={props.strum} fallback={<span class="small soft">{changeWords.noStrum}</span>}>
      {(strum) => <StrumPicture strum={strum()} beat={beatOf(desk.session.board.meter)} />}
    </Show>
  );
}

function FillPicture(props: { readonly fill: Fill | undefined; readonly lane: LaneId }) {
  const frets = (fill: Fill) => fill.notes.map(({ string, fret }) => `${string}:${fret}`);
  return (
    <Show when={props.fill} fallback={<span class="small soft">{changeWords.noFill}</span>}>
      {(fill) => (
        <>
          <span class="spoken">{frets(fill()).join(", ") || changeWords.noNotes}</span>
          <svg class="change-tab" height={tabHeight} aria-hidden="true">
            <TabPicture figure={fillFigure(fill())} lane={props.lane} />
          </svg>
        </>
      )}
    </Show>
  );
}
