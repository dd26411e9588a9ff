/**
 * The seam over one slot: pitch upwards, time to the right, both lanes' notes and where they
 * overlap.
 */
import "./SeamSlot.css";
import type { LaneId } from "@halflap/board/board";
import type { MidiNote } from "@halflap/theory/units";
import { createMemo, For, Show } from "solid-js";
import { useDrawn } from "../board/drawing.ts";
import {
  heightOf,
  type PitchScale,
  ruledPitches,
  seamHeight,
  semitoneHeight,
} from "./pitch-scale.ts";
import { type Register, type SeamNote, seamFigure } from "./seam-figure.ts";

const laneIds: readonly LaneId[] = ["upper", "lower"];
const inset = 3;

type Drawn = {
  readonly upper: readonly MidiNote[];
  readonly lower: readonly MidiNote[];
  readonly scale: PitchScale;
  readonly isPicked: (lane: LaneId, pitch: number) => boolean;
};

/** `words` says in text what is drawn. */
export function SeamSlot(props: Drawn & { readonly words: string }) {
  const isDrawn = useDrawn();
  return (
    <svg class="seam-slot" width="100%" height={seamHeight} role="img" aria-label={props.words}>
      <Show when={isDrawn()}>
        <Drawing {...props} />
      </Show>
    </svg>
  );
}

function Drawing(props: Drawn) {
  const figure = createMemo(() => seamFigure(props.upper, props.lower));
  const thickness = () => Math.max(3, Math.min(5, semitoneHeight(props.scale) + 0.4));
  const band = (register: Register) => {
    const top = heightOf(props.scale, register.high) - thickness() / 2 - 2;
    const bottom = heightOf(props.scale, register.low) + thickness() / 2 + 2;
    return { y: top, height: bottom - top };
  };
  const x = (note: SeamNote) => (note.part === "second" ? "53%" : `${inset}%`);
  const width = (note: SeamNote) => (note.part === "whole" ? `${100 - 2 * inset}%` : "44%");
  const round = (lane: LaneId) => (lane === "lower" ? thickness() / 2 : 0);
  return (
    <>
      <For each={ruledPitches(props.scale)}>
        {(pitch) => {
          const y = () => heightOf(props.scale, pitch);
          return <line class="seam-rule" x1="0" x2="100%" y1={y()} y2={y()} />;
        }}
      </For>
      <For each={laneIds}>
        {(lane) => (
          <Show when={figure().registers[lane]}>
            {(register) => (
              <rect
                class="seam-register"
                data-lane={lane}
                x="0"
                width="100%"
                {...band(register())}
                rx={lane === "lower" ? 6 : 0}
              />
            )}
          </Show>
        )}
      </For>
      <Show when={figure().overlap}>
        {(overlap) => <rect class="seam-overlap" x="0" width="100%" {...band(overlap())} />}
      </Show>
      <For each={figure().notes}>
        {(note) => (
          <rect
            class="seam-note"
            data-lane={note.lane}
            data-picked={props.isPicked(note.lane, note.pitch) ? "" : undefined}
            x={x(note)}
            width={width(note)}
            y={heightOf(props.scale, note.pitch) - thickness() / 2}
            height={thickness()}
            rx={round(note.lane)}
          />
        )}
      </For>
      <For each={figure().doubled}>
        {(pitch) => (
          <svg
            class="seam-bracket"
            x="50%"
            y={heightOf(props.scale, pitch)}
            overflow="visible"
            aria-hidden="true"
          >
            <path d="M-5 -4.5 V-6.5 H5 V-4.5 M-5 4.5 V6.5 H5 V4.5" />
          </svg>
        )}
      </For>
    </>
  );
}
