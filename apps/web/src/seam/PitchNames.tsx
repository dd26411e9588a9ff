/** The names of the Cs beside the seam, at their height. */
import { pitchName } from "@halflap/theory/pitch";
import { midiNote } from "@halflap/theory/units";
import { For } from "solid-js";
import { heightOf, type PitchScale, ruledPitches, seamHeight } from "./pitch-scale.ts";

/** Drawn for the eye; the seam's own text names its pitches. */
export function PitchNames(props: { readonly scale: PitchScale }) {
  return (
    <svg class="pitch-names" width="100%" height={seamHeight} aria-hidden="true">
      <For each={ruledPitches(props.scale)}>
        {(pitch) => (
          <text x="100%" dx="-10" y={heightOf(props.scale, pitch)}>
            {pitchName(midiNote(pitch), "flats")}
          </text>
        )}
      </For>
    </svg>
  );
}
