/**
 * The bench drawing on the door: two timbers, each halved, brought together when the chart reads
 * well.
 */
import type { JSX } from "solid-js";
import "./JointDrawing.css";

/** Decoration only; `closed` brings the timbers together. */
export function JointDrawing(props: { readonly closed: boolean }): JSX.Element {
  return (
    <svg class="joint" viewBox="0 0 560 250" aria-hidden="true" data-closed={props.closed}>
      <g class="joint-guides">
        <path d="M200 8v222M360 8v222M8 120h544" />
      </g>
      <g class="joint-upper">
        <path class="joint-wood" d="M20 84h340v36H200v36H20z" />
        <path class="joint-grain" d="M32 95c90 5 170-4 316 0M32 108c100-3 190 4 316 0" />
        <path class="joint-grain" d="M32 124c60 3 110-2 156 0M32 142c50-4 100 3 156 0" />
      </g>
      <g class="joint-lower">
        <path
          class="joint-wood"
          d="M200 120h160V84h152a28 28 0 0 1 28 28v16a28 28 0 0 1-28 28H200z"
        />
        <path class="joint-grain" d="M212 131c90 4 180-3 312 0M212 144c120-3 200 3 304 0" />
        <path class="joint-grain" d="M372 96c50-3 90 2 142 0M372 111c60 3 100-2 154 0" />
      </g>
      <g class="joint-measure">
        <path d="M200 222h160M194 228l12-12M354 228l12-12" />
      </g>
    </svg>
  );
}
