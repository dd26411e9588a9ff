/**
 * A grip as a small piece of neck: string 1 on top, square pegs in the upper lane, round ones in
 * the lower.
 */
import "./GripDiagram.css";
import type { LaneId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";
import type { Setup } from "@halflap/theory/tuning";
import { createMemo, For, Show } from "solid-js";
import { useDrawn } from "../board/drawing.ts";
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
  const isDrawn = useDrawn();
  const figure = createMemo(() => gripFigure(props.grip, props.setup));
  const width = () => room + figure().columns * column + 2;
  const hasNut = () => figure().skipped === 0;
  const sounds = (string: number) => figure().pegs.some((peg) => peg.string === string);
  const x = (peg: Peg) => (peg.column === 0 ? room / 2 : room + (peg.column - 0.5) * column);
  // One path for all lines that look alike: a board has hundreds of these drawings.
  const frets = () => {
    const all = Array.from({ length: figure().columns + 1 }, (_, index) => index);
    return all
      .map(fretLine)
      .slice(hasNut() ? 1 : 0)
      .join("");
  };
  const strings = (sounding: boolean) =>
    stringsDown
      .filter((string) => sounds(string) === sounding)
      .map((string) => `M${sounding ? 1 : room} ${y(string)}H${width() - 1}`)
      .join("");
  return (
    <svg class="grip-diagram" viewBox={`0 0 ${width()} 60`} aria-hidden="true">
      <Show when={isDrawn()}>
        <path class="fret-line" d={frets()} />
        <path class="fret-line" data-nut d={hasNut() ? fretLine(0) : ""} />
        <path class="string-line" d={strings(true)} />
        <path class="string-line" data-silent d={strings(false)} />
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
      </Show>
    </svg>
  );
}

function fretLine(fret: number): string {
  return `M${room + fret * column} ${y(1)}V${y(6)}`;
}
