/** Which keys of a foot pedal do what: each is learnt by pressing the pedal. */
import { For, Show } from "solid-js";
import { keyNames } from "../words/board.ts";
import { drawerWords, pedalWords } from "../words/listen-drawer.ts";
import type { PedalKeys } from "./create-pedal.ts";
import { type PedalAction, pedalActions } from "./pedal.ts";

/** Kept in this browser. */
export function PedalPart(props: { readonly keys: PedalKeys }) {
  return (
    <fieldset class="listen-pedal">
      <legend class="label">{drawerWords.pedal}</legend>
      <For each={pedalActions}>{(action) => <PedalKey action={action} keys={props.keys} />}</For>
      <p class="small soft">{drawerWords.pedalHint}</p>
      <p class="spoken" role="status">
        {props.keys.learning() === undefined ? "" : drawerWords.pressPedal}
      </p>
    </fieldset>
  );
}

function PedalKey(props: { readonly action: PedalAction; readonly keys: PedalKeys }) {
  const key = () => props.keys.pedal()[props.action];
  const name = () => {
    const known = key();
    return known === undefined ? undefined : (keyNames[known] ?? known);
  };
  const shown = () => (isLearning() ? drawerWords.pressPedal : (name() ?? drawerWords.noPedalKey));
  const isLearning = () => props.keys.learning() === props.action;
  return (
    <div class="listen-pedal-row">
      <span>{pedalWords[props.action]}</span>
      <button
        type="button"
        class="button small"
        aria-pressed={isLearning()}
        aria-label={drawerWords.learn(pedalWords[props.action], shown())}
        onClick={() => props.keys.learn(isLearning() ? undefined : props.action)}
        onBlur={() => isLearning() && props.keys.learn(undefined)}
      >
        <Show when={!isLearning()} fallback={drawerWords.pressPedal}>
          <Show when={name()} fallback={drawerWords.noPedalKey}>
            {(known) => <kbd>{known()}</kbd>}
          </Show>
        </Show>
      </button>
      <Show when={name()}>
        <button
          type="button"
          class="button bare small"
          aria-label={drawerWords.forgetKey(pedalWords[props.action])}
          onClick={() => props.keys.forget(props.action)}
        >
          {drawerWords.forget}
        </button>
      </Show>
    </div>
  );
}
