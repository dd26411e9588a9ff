/** What a pattern is beside its steps: name, length of a step, feel, palm mute. */
import { nameMax } from "@halflap/board/limits";
import type { Strum } from "@halflap/board/playing";
import { stepLengths } from "@halflap/board/strum-text";
import { For } from "solid-js";
import { Choice } from "../app/Choice.tsx";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";
import { onSteps } from "./step-grid.ts";

const feels: readonly Strum["feel"][] = ["board", "straight", "swing"];

/** Another step keeps each stroke where it was, as near as the new grid allows. */
export function StrumSettings(props: { readonly playing: Playing }) {
  const strum = () => props.playing.draft();
  const setStep = (value: string) => {
    const step = stepLengths.find((each) => String(each) === value);
    if (step === undefined || step === strum().step) return;
    props.playing.changeStrum({ step, steps: onSteps(strum(), step) });
  };
  const rename = (field: HTMLInputElement) => {
    const name = field.value.replace(/\s+/g, " ").trim();
    if (name !== strum().name) props.playing.changeStrum({ name });
    field.value = name;
  };
  return (
    <div class="playing-group">
      <div class="playing-row">
        <label>
          <span class="label small">{playingWords.name}</span>
          <input
            class="field"
            value={strum().name}
            maxlength={nameMax}
            placeholder={playingWords.nameHint}
            autocomplete="off"
            onChange={(event) => rename(event.currentTarget)}
          />
        </label>
        <label>
          <span class="label small">{playingWords.stepLength}</span>
          <select class="field" onChange={(event) => setStep(event.currentTarget.value)}>
            <For each={stepLengths}>
              {(step) => (
                <option value={step} selected={step === strum().step}>
                  {playingWords.stepLengths[step]}
                </option>
              )}
            </For>
          </select>
        </label>
      </div>
      <div class="playing-row">
        <Choice
          label={playingWords.feel}
          options={feels}
          words={playingWords.feels}
          chosen={strum().feel}
          onChoose={(feel) => props.playing.changeStrum({ feel })}
        />
        <button
          type="button"
          class="button"
          aria-pressed={strum().palmMute}
          onClick={() => props.playing.changeStrum({ palmMute: !strum().palmMute })}
        >
          {playingWords.patternPalmMute}
        </button>
      </div>
    </div>
  );
}
