/**
 * The shape of a finding: stop, a solid block; fix, a wedge; look, a ring; note, a dot; praise, a
 * joint that is closed.
 */
import "./SeverityMark.css";
import { Match, Switch } from "solid-js";
import type { Sign } from "./reading-order.ts";

/** Drawn for the eye only; what it means is said in words beside it. */
export function SeverityMark(props: { readonly severity: Sign }) {
  return (
    <svg
      class="severity-mark"
      data-severity={props.severity}
      viewBox="0 0 16 16"
      aria-hidden="true"
    >
      <Switch>
        <Match when={props.severity === "stop"}>
          <rect x="2" y="2" width="12" height="12" />
        </Match>
        <Match when={props.severity === "fix"}>
          <path d="M1.5 13.5 H14.5 V3.5 Z" />
        </Match>
        <Match when={props.severity === "look"}>
          <circle cx="8" cy="8" r="5" />
        </Match>
        <Match when={props.severity === "note"}>
          <circle cx="8" cy="8" r="2.6" />
        </Match>
        <Match when={props.severity === "lock"}>
          <path class="lock-upper" d="M1 2.5 H15 V7.6 H9.5 V10 H1 Z" />
          <path class="lock-lower" d="M15 8.8 V13.5 H1 V11.2 H10.7 V8.8 Z" />
        </Match>
      </Switch>
    </svg>
  );
}
