/** A fill as tab over its time: string 1 on top, frets at their beat, slurs and slides between. */
import "./TabPicture.css";
import type { LaneId } from "@halflap/board/board";
import { For, Match, Show, Switch } from "solid-js";
import { playedWords } from "../words/played.ts";
import { withFractions } from "./beat-name.ts";
import type { FillFigure, NoteFigure } from "./playing-figure.ts";
import { tabStrings } from "./tab-strings.ts";

/** The distance of two string lines, and the height of a tab, in pixels. */
export const tabGap = 9;
export const tabHeight = 63;

const top = 9;
const fretHeight = 12;
const bendOnward = "M14 1Q18 1 18-6M15.8-3.6 18-6.4 20.2-3.6";
const percent = (share: number) => `${(share * 100).toFixed(3)}%`;
const y = (string: number) => top + (string - 1) * tabGap;

/** Part of an SVG as wide as the time of its bar. Drawn for the eye only. */
export function TabPicture(props: { readonly figure: FillFigure; readonly lane: LaneId }) {
  const width = () => props.figure.to - props.figure.from;
  return (
    <g class="tab-picture" data-kind={props.figure.fill.kind}>
      <rect
        class="tab-ground"
        x={percent(props.figure.from)}
        y="1"
        width={percent(width())}
        height={tabHeight - 2}
        rx={props.lane === "lower" ? 8 : 0}
      />
      <For each={tabStrings}>
        {(string) => (
          <line
            class="tab-line"
            x1={percent(props.figure.from)}
            x2={percent(props.figure.to)}
            y1={y(string)}
            y2={y(string)}
          />
        )}
      </For>
      <For each={props.figure.notes}>{(note) => <TabLink note={note} />}</For>
      <For each={props.figure.notes}>{(note) => <TabNote note={note} />}</For>
      <Show when={props.figure.fill.notes.length === 0}>
        <svg
          x={percent(props.figure.from + width() / 2)}
          y={tabHeight / 2}
          overflow="visible"
          aria-hidden="true"
        >
          <text class="tab-open" y="4">
            {playedWords.kinds[props.figure.fill.kind]}
          </text>
        </svg>
      </Show>
    </g>
  );
}

/** With less than this share of the time left a bend is drawn back over its note. */
const bendRoom = 0.15;

function TabNote(props: { readonly note: NoteFigure }) {
  const turnsBack = () => 1 - props.note.at < bendRoom;
  return (
    <>
      <TabFret note={props.note} />
      <Show when={props.note.note.way === "bend"}>
        <svg
          x={percent(props.note.at)}
          y={y(props.note.note.string)}
          overflow="visible"
          aria-hidden="true"
        >
          <path
            class="tab-bend"
            d={turnsBack() ? "M-1 1Q-5 1-5-6M-7.2-3.6-5-6.4-2.8-3.6" : bendOnward}
          />
          <text
            class="tab-amount"
            data-back={turnsBack() ? "" : undefined}
            x={turnsBack() ? -1 : 14}
            y="-8"
          >
            {withFractions(props.note.note.bend / 2)}
          </text>
        </svg>
      </Show>
    </>
  );
}

/** The number keeps its size where its width fits into its room, and shrinks with it elsewhere. */
function TabFret(props: { readonly note: NoteFigure }) {
  const width = () => (props.note.note.fret > 9 ? 13 : 8);
  return (
    <svg
      x={percent(props.note.at)}
      y={y(props.note.note.string) - fretHeight / 2}
      width={percent(props.note.room)}
      height={fretHeight}
      viewBox={`0 ${-fretHeight / 2} ${width()} ${fretHeight}`}
      preserveAspectRatio="xMinYMid meet"
      overflow="visible"
      aria-hidden="true"
    >
      <text class="tab-fret" x="1" y="4">
        {props.note.note.fret}
      </text>
    </svg>
  );
}

/** What joins a note to the one before it on its string. */
function TabLink(props: { readonly note: NoteFigure }) {
  return (
    <Show when={props.note.from}>
      {(from) => (
        <svg
          class="tab-link"
          x={percent(from().at)}
          y={y(props.note.note.string) - tabGap - 1}
          width={percent(props.note.at - from().at)}
          height={tabGap}
          viewBox="0 0 10 10"
          preserveAspectRatio="none"
          overflow="visible"
          aria-hidden="true"
        >
          <Switch>
            <Match when={props.note.note.way === "slide"}>
              <path
                class="tab-slide"
                d={props.note.note.fret > from().fret ? "M5.6 13.5 9.4 8" : "M5.6 8 9.4 13.5"}
              />
            </Match>
            <Match when={true}>
              <path d="M2 5.5Q6-2 11 5.5" />
            </Match>
          </Switch>
        </svg>
      )}
    </Show>
  );
}
