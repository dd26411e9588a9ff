/** The sign of the house: two timbers halved into each other, apart or flush. */
import type { JSX } from "solid-js";
import "./Mark.css";

/** Decoration only: what it shows is always also said in words beside it. */
export function Mark(props: { readonly gap?: "none" | "small" | "wide" }): JSX.Element {
  return (
    <svg class="mark" viewBox="0 0 32 32" aria-hidden="true" data-gap={props.gap ?? "none"}>
      <path class="mark-upper" d="M1 9h20v7H11v7H1z" />
      <path class="mark-lower" d="M11 16h10V9h6a4 4 0 0 1 4 4v6a4 4 0 0 1-4 4H11z" />
    </svg>
  );
}
