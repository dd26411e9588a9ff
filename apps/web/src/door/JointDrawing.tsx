/** The bench drawing on the door: two timbers, halved, brought together when the joint is right. */
import type { JSX } from "solid-js";
import "./JointDrawing.css";

/** Decoration only; `closed` brings the timbers together. */
export function JointDrawing(props: { readonly closed: boolean }): JSX.Element {
  return (
    <svg
      class="joint"
      viewBox="0 0 520 260"
      aria-hidden="true"
      data-closed={props.closed}
      preserveAspectRatio="xMidYMid meet"
    >
      <g class="joint-guides">
        <path d="M200 18v228M320 18v228" />
        <path d="M14 130h492" />
      </g>
      <g class="joint-upper">
        <path
          class="joint-wood"
          d="M20 90h480v40H320v40H200v-40H20z"
          transform="translate(0 -20)"
        />
        <path class="joint-grain" d="M34 84c90 6 150-4 240 1s150 3 212-2M34 97c60 3 110 2 180-1" />
        <path class="joint-grain" d="M214 124c30 4 60 2 92-1" />
      </g>
      <g class="joint-lower">
        <path
          class="joint-wood"
          d="M200 130h-168a12 12 0 0 0-12 12v16a12 12 0 0 0 12 12h456a12 12 0 0 0 12-12v-16a12 12 0 0 0-12-12h-168v20h-120z"
          transform="translate(0 0)"
        />
        <path class="joint-grain" d="M36 144c60 5 100 0 150 1M336 145c60-4 100 3 150-1" />
        <path class="joint-grain" d="M36 160c120 5 260-5 448 0" />
      </g>
      <g class="joint-measure">
        <path d="M200 232h120M200 226v12M320 226v12" />
        <path d="M196 236l8-8M316 236l8-8" />
      </g>
    </svg>
  );
}
