/** How loud the microphone comes in, with its end in sight. */
import { Show } from "solid-js";
import { takeWords } from "../../words/takes.ts";
import type { InputLevel } from "./create-recording.ts";

/** From silence to full scale over 60 dB, as ears measure. */
const rangeDb = 60;

/** A bar that fills; what was too loud is said beside it in words. */
export function InputMeter(props: { readonly input: InputLevel }) {
  const part = () => {
    const db = 20 * Math.log10(Math.max(props.input.level, 1e-6));
    return Math.max(0, 1 + db / rangeDb);
  };
  return (
    <div class="take-input">
      {/* biome-ignore lint/a11y/useSemanticElements: <meter> has the system's own colours */}
      <div
        class="take-meter"
        role="meter"
        aria-label={takeWords.input}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.round(part() * 100)}
        data-clipped={props.input.hasClipped ? "" : undefined}
      >
        <span class="take-meter-fill" style={{ "--part": part() }} />
      </div>
      <Show when={props.input.hasClipped}>
        <p class="small problem">{takeWords.clipped}</p>
      </Show>
    </div>
  );
}
