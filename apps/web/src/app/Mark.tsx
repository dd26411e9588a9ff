/** The sign of the house: two timbers halved into each other, apart or flush. */
import type { JSX } from "solid-js";
import "./Mark.css";

/** Decoration only: what it shows is always also said in words beside it. */
export function Mark(props: { readonly gap?: "none" | "small" | "wide" }): JSX.Element {
  return (
    <svg class="mark" viewBox="0 0 32 32" aria-hidden="true" data-gap={props.gap ?? "none"}>
      <path class="mark-upper" d="M2 7h28v9H17v5H2z" />
      <path class="mark-lower" d="M17 16h13v7a3 3 0 0 1-3 3H5a3 3 0 0 1-3-3v-2h15z" />
    </svg>
  );
}
