/** Steps over the time in which they are played, as signs on a line. */
import "./StepsPicture.css";
import { For, Show } from "solid-js";
import type { StepFigure } from "./playing-figure.ts";
import { StepGlyph } from "./StepGlyph.tsx";

/** A share of the width, as SVG writes it. */
const percent = (share: number) => `${(share * 100).toFixed(3)}%`;

/** A sign begins at its time, as a fret in a tab does: half its width, in pixels. */
const room = 5;

/** Part of an SVG as wide as the time; `y` is where the signs stand, in its pixels. */
export function StepsPicture(props: { readonly steps: readonly StepFigure[]; readonly y: number }) {
  return (
    <svg x={room} width="100%" overflow="visible" aria-hidden="true">
      <For each={props.steps}>
        {(figure) => (
          <>
            <StepGlyph
              step={figure.step}
              style={{ translate: `${percent(figure.at)} ${props.y}px` }}
            />
            <Show when={figure.step.kind === "stroke" && figure.step.push}>
              <svg
                class="push-tie"
                x={percent(figure.at)}
                y={props.y + 7}
                width={percent(figure.width)}
                height="6"
                viewBox="0 0 10 6"
                preserveAspectRatio="none"
                overflow="visible"
                aria-hidden="true"
              >
                <path d="M0.5 0Q5 8 10 1" />
              </svg>
            </Show>
          </>
        )}
      </For>
    </svg>
  );
}
