/**
 * A step of a pattern as a sign round the origin: the bow signs' bracket for down and wedge for up,
 * drawn by our own hand; a cross where the strings are stopped.
 */
import "./StepGlyph.css";
import type { Step } from "@halflap/board/playing";
import { Match, Show, Switch } from "solid-js";

type Struck = Exclude<Step, { readonly kind: "rest" }>;

/** Drawn for the eye only: whoever shows it says the step in words beside it. */
export function StepGlyph(props: { readonly step: Struck }) {
  const stroke = () => (props.step.kind === "stroke" ? props.step : undefined);
  return (
    <g class="step-glyph" data-weight={stroke()?.weight}>
      <Switch>
        <Match when={props.step.kind === "choke"}>
          <path d="M-3.4-3.4 3.4 3.4M3.4-3.4-3.4 3.4" />
        </Match>
        <Match when={stroke()?.way === "down"}>
          <path d="M-3.6 5V-4M3.6 5V-4" />
          <path class="step-glyph-bar" d="M-4.3-4H4.3" />
        </Match>
        <Match when={stroke()?.way === "up"}>
          <path d="M-3.6-5 0 5 3.6-5" />
        </Match>
      </Switch>
      <Show when={stroke()?.weight === "accent"}>
        <path class="step-glyph-accent" d="M-3.2-13.5 3.2-11-3.2-8.5" />
      </Show>
    </g>
  );
}
