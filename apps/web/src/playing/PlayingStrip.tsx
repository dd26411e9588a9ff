/** What a lane plays in a bar beyond its grips, as a strip under them: strokes, fills, marks. */
import "./PlayingStrip.css";
import type { Bar, LaneId } from "@halflap/board/board";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { useDrawn } from "../board/drawing.ts";
import { playedWords } from "../words/played.ts";
import { passesOf } from "./in-force.ts";
import { MarkLine } from "./MarkLine.tsx";
import { type PlayingFigure, playingFigure } from "./playing-figure.ts";
import { type BarMarks, passNotesOf, playingText } from "./playing-text.ts";
import { StepsPicture } from "./StepsPicture.tsx";
import { stripId } from "./strip-id.ts";
import { TabPicture, tabHeight } from "./TabPicture.tsx";

/** The height of a row of strokes, and where in it they stand, in pixels. */
const stepsHeight = 30;
const stepsY = 16;

/** Pressing it opens the bar's playing. */
export function PlayingStrip(props: { readonly lane: LaneId; readonly bar: Bar }) {
  const desk = useDesk();
  const lane = () => desk.session.board.lanes[props.lane];
  const section = createMemo(() =>
    desk.session.board.sections.find((each) => each.bars.includes(props.bar)),
  );
  const figure = createMemo<PlayingFigure | undefined>(() => {
    const inside = section();
    return inside && playingFigure(lane(), inside, props.bar, desk.session.board.meter);
  });
  /** What single passes do differently, told where their section starts. */
  const passNotes = () => {
    const inside = section();
    if (inside === undefined || inside.bars[0] !== props.bar) return [];
    return passNotesOf(lane(), passesOf(desk.session.board.form, inside.id));
  };
  const marks = createMemo((): BarMarks => {
    const { id } = props.bar;
    const { dynamics, palmMutes, letRings, marks: texts } = lane();
    return {
      dynamic: dynamics.get(id),
      palmMute: palmMutes.has(id) || figure()?.palmMute === true,
      letRing: letRings.has(id),
      aims: props.lane === "upper" ? (desk.session.board.aims.get(id) ?? []) : [],
      mark: texts.get(id) ?? "",
      passes: passNotes(),
    };
  });
  const text = createMemo(() => {
    const here = figure();
    return here ? playingText(here, marks(), desk.session.board.meter) : "";
  });
  const isOpen = () => {
    const panel = desk.sidePanel();
    return panel?.kind === "playing" && panel.lane === props.lane && panel.bar === props.bar.id;
  };
  const open = () => {
    const slot = props.bar.slots[0];
    if (slot) desk.stand({ kind: "slot", lane: props.lane, bar: props.bar.id, slot: slot.id });
    desk.openSidePanel({ kind: "playing", lane: props.lane, bar: props.bar.id });
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the key of every place opens it, "s"
    <div
      class="playing-strip"
      id={stripId(props.lane, props.bar.id)}
      role="gridcell"
      tabindex={-1}
      aria-selected={isOpen()}
      data-empty={text() === "" ? "" : undefined}
      data-own={desk.mayWrite(props.lane) ? "" : undefined}
      onClick={open}
    >
      <span class="spoken">
        {text() === ""
          ? playedWords.spokenNothing(props.bar.number)
          : playedWords.spoken(props.bar.number, text())}
      </span>
      <Show when={figure()}>
        {(here) => (
          <Show when={here().steps.length > 0 || here().fills.length > 0}>
            <StripPicture figure={here()} lane={props.lane} />
          </Show>
        )}
      </Show>
      <MarkLine marks={marks()} fills={figure()?.fills ?? []} />
      <Show when={text() === "" && desk.mayWrite(props.lane)}>
        <span class="playing-add" aria-hidden="true">
          {playedWords.add}
        </span>
      </Show>
    </div>
  );
}

/** Strokes on one line, and a fill as tab in place of them. */
function StripPicture(props: { readonly figure: PlayingFigure; readonly lane: LaneId }) {
  const isDrawn = useDrawn();
  const height = () => (props.figure.fills.length > 0 ? tabHeight : stepsHeight);
  const percent = (share: number) => `${(share * 100).toFixed(3)}%`;
  return (
    <svg class="strip-picture" height={height()} aria-hidden="true">
      <Show when={isDrawn()}>
        <For each={props.figure.beats}>
          {(at) => (
            <line
              class="strip-beat"
              x1={percent(at)}
              x2={percent(at)}
              y1={stepsHeight - 5}
              y2={stepsHeight - 1}
            />
          )}
        </For>
        <For each={props.figure.fills}>
          {(fill) => <TabPicture figure={fill} lane={props.lane} />}
        </For>
        <StepsPicture steps={props.figure.steps} y={stepsY} />
      </Show>
    </svg>
  );
}
