/**
 * A grip as a small piece of neck: string 1 on top, square pegs in the upper lane, round ones in
 * the lower.
 */
import "./GripDiagram.css";
import type { LaneId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";
import type { Setup } from "@halflap/theory/tuning";
import { createMemo, For, Show } from "solid-js";
import { gripFigure, type Peg, stringsDown } from "./grip-figure.ts";
import { PegMark } from "./PegMark.tsx";

const gap = 8;
const column = 14;
const room = 13;
const top = 6;

const y = (string: number) => top + (string - 1) * gap;

/** Drawn for the eye only: whoever shows it says the grip in words beside it. */
export function GripDiagram(props: {
  readonly grip: Grip;
  readonly setup: Setup;
  readonly lane: LaneId;
  readonly isPicked?: (pitch: number) => boolean;
}) {
  const figure = createMemo(() => gripFigure(props.grip, props.setup));
  const width = () => room + figure().columns * column + 2;
  const frets = () => Array.from({ length: figure().columns + 1 }, (_, index) => index);
  const sounds = (string: number) => figure().pegs.some((peg) => peg.string === string);
  const x = (peg: Peg) => (peg.column === 0 ? room / 2 : room + (peg.column - 0.5) * column);
  return (
    <svg class="grip-diagram" viewBox={`0 0 ${width()} 60`} aria-hidden="true">
      <For each={frets()}>
        {(fret) => (
          <line
            class="fret-line"
            data-nut={fret === 0 && figure().skipped === 0 ? "" : undefined}
            x1={room + fret * column}
            x2={room + fret * column}
            y1={y(1)}
            y2={y(6)}
          />
        )}
      </For>
      <For each={stringsDown}>
        {(string) => (
          <line
            class="string-line"
            data-silent={sounds(string) ? undefined : ""}
            x1={sounds(string) ? 1 : room}
            x2={width() - 1}
            y1={y(string)}
            y2={y(string)}
          />
        )}
      </For>
      <For each={figure().pegs}>
        {(peg) => (
          <PegMark
            lane={props.lane}
            x={x(peg)}
            y={y(peg.string)}
            size={7.6}
            open={peg.column === 0}
            picked={props.isPicked?.(peg.pitch) ?? false}
          />
        )}
      </For>
      <Show when={figure().label}>
        {(label) => (
          <text class="fret-number" x={room + column / 2} y="59">
            {label()}
          </text>
        )}
      </Show>
    </svg>
  );
}
