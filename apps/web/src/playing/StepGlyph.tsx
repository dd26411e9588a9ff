/**
 * A step of a pattern as a sign round the origin: the bow signs' bracket for down and wedge for up,
 * drawn by our own hand; a cross where the strings are stopped.
 */
import "./StepGlyph.css";
import type { Step } from "@halflap/board/playing";
import type { JSX } from "solid-js";

type Struck = Exclude<Step, { readonly kind: "rest" }>;

const cross = "M-3.4-3.4 3.4 3.4M3.4-3.4-3.4 3.4";
const bracket = "M-3.6 5V-4M3.6 5V-4M-3.5-4.7H3.5V-3.3H-3.5Z";
const wedge = "M-3.6-5 0 5 3.6-5";
const accent = "M-3.2-13.5 3.2-11-3.2-8.5";

/**
 * One path, for a board has thousands of these; `style` puts it in its place. Drawn for the eye
 * only: whoever shows it says the step in words beside it.
 */
export function StepGlyph(props: { readonly step: Struck; readonly style?: JSX.CSSProperties }) {
  return (
    <path
      class="step-glyph"
      data-weight={props.step.kind === "stroke" ? props.step.weight : undefined}
      d={signOf(props.step)}
      style={props.style}
    />
  );
}

function signOf(step: Struck): string {
  if (step.kind === "choke") return cross;
  const way = step.way === "down" ? bracket : wedge;
  return step.weight === "accent" ? way + accent : way;
}
