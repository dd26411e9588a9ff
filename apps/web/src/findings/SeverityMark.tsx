/**
 * The shape of a finding: stop, a solid block; fix, a wedge; look, a ring; note, a dot; praise, a
 * joint that is closed.
 */
import "./SeverityMark.css";
import { Show } from "solid-js";
import type { Sign } from "./reading-order.ts";

const round = (radius: number) => {
  const half = `a${radius} ${radius} 0 1 0`;
  return `M${8 - radius} 8${half} ${2 * radius} 0${half} ${-2 * radius} 0Z`;
};
const shapes: Readonly<Record<Sign, string>> = {
  stop: "M2 2H14V14H2Z",
  fix: "M1.5 13.5H14.5V3.5Z",
  look: round(5),
  note: round(2.6),
  lock: "M1 2.5H15V7.6H9.5V10H1Z",
};

/** Drawn for the eye only; what it means is said in words beside it. */
export function SeverityMark(props: { readonly severity: Sign }) {
  return (
    <svg
      class="severity-mark"
      data-severity={props.severity}
      viewBox="0 0 16 16"
      aria-hidden="true"
    >
      <path d={shapes[props.severity]} />
      <Show when={props.severity === "lock"}>
        <path class="lock-lower" d="M15 8.8V13.5H1V11.2H10.7V8.8Z" />
      </Show>
    </svg>
  );
}
