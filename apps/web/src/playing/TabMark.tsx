/** A note on a crossing of the tab: its fret, and before or after it how it is sounded. */
import type { FillNote, FillWay } from "@halflap/board/playing";
import { Show } from "solid-js";
import { withFractions } from "./beat-name.ts";

const signs: Readonly<Record<FillWay, string>> = {
  pluck: "",
  "hammer-on": "h",
  "pull-off": "p",
  slide: "s",
  bend: "",
};

/** Drawn for the eye only: the crossing says its note in words. */
export function TabMark(props: { readonly note: FillNote }) {
  return (
    <span class="tab-mark" aria-hidden="true">
      <span class="tab-way">{signs[props.note.way]}</span>
      {props.note.fret}
      <Show when={props.note.way === "bend"}>
        <span class="tab-way">b{withFractions(props.note.bend / 2)}</span>
      </Show>
      <Show when={props.note.letRing}>
        <span class="tab-way">~</span>
      </Show>
    </span>
  );
}
