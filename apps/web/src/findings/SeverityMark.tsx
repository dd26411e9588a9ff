/** The shape of a severity: stop, a solid block; fix, a wedge; look, a ring; note, a dot. */
import "./SeverityMark.css";
import type { Severity } from "@halflap/checker/finding";
import { Match, Switch } from "solid-js";

/** Drawn for the eye only; the severity is said in words beside it. */
export function SeverityMark(props: { readonly severity: Severity }) {
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
      </Switch>
    </svg>
  );
}
