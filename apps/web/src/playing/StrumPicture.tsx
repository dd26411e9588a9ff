/** A whole pattern as a small picture, with what it says for a screen reader. */
import "./StrumPicture.css";
import type { Strum } from "@halflap/board/playing";
import { ticks } from "@halflap/theory/units";
import { createMemo, For } from "solid-js";
import { stepFigures } from "./playing-figure.ts";
import { strokesText } from "./playing-text.ts";
import { StepsPicture } from "./StepsPicture.tsx";

/** As wide as it has room for; a beat is told from the next by a small line. */
export function StrumPicture(props: {
  readonly strum: Pick<Strum, "step" | "steps">;
  readonly beat: number;
}) {
  const length = () => ticks(props.strum.steps.length * props.strum.step);
  const figures = createMemo(() => stepFigures(props.strum, length()));
  const beats = () =>
    Array.from({ length: Math.ceil(length() / props.beat) }, (_, i) => (i * props.beat) / length());
  return (
    <span class="strum-picture">
      <span class="spoken">{strokesText(figures(), props.beat)}</span>
      <svg height="30" aria-hidden="true">
        <For each={beats()}>
          {(at) => (
            <line
              class="strum-beat"
              x1={`${(at * 100).toFixed(2)}%`}
              x2={`${(at * 100).toFixed(2)}%`}
              y1="25"
              y2="29"
            />
          )}
        </For>
        <StepsPicture steps={figures()} y={16} />
      </svg>
    </span>
  );
}
