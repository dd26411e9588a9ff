/** By how much this browser's sound is shifted when it is played together. */
import { createUniqueId, type JSX } from "solid-js";
import { togetherWords } from "../../words/together.ts";
import { useListening } from "../create-listening.ts";
import { nudgeMaxMs } from "./nudge.ts";

/** Kept in this browser. */
export function NudgeField(): JSX.Element {
  const { together } = useListening();
  const id = createUniqueId();
  return (
    <div class="together-nudge">
      <label class="label" for={id}>
        {togetherWords.nudge}
      </label>
      <div class="together-nudge-row">
        <input
          id={id}
          class="field"
          type="number"
          inputmode="numeric"
          min={-nudgeMaxMs}
          max={nudgeMaxMs}
          value={together.nudge()}
          aria-describedby={`${id}-hint`}
          onChange={(event) => {
            together.setNudge(event.currentTarget.valueAsNumber);
            event.currentTarget.value = String(together.nudge());
          }}
        />
        <span class="small">{togetherWords.nudgeUnit}</span>
      </div>
      <p class="small soft" id={`${id}-hint`}>
        {togetherWords.nudgeHint}
      </p>
    </div>
  );
}
