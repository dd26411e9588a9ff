/** One of a few: a row of radio buttons drawn as joined pieces. */
import { createUniqueId, For, type JSX } from "solid-js";
import "./Choice.css";

/** Tells `onChoose` which of the options was chosen. */
export function Choice<T extends string>(props: {
  readonly label: string;
  readonly options: readonly T[];
  readonly words: Readonly<Record<T, string>>;
  readonly chosen: T;
  readonly onChoose: (option: T) => void;
}): JSX.Element {
  const name = createUniqueId();
  return (
    <fieldset class="choice">
      <legend class="label">{props.label}</legend>
      <div class="choice-row">
        <For each={props.options}>
          {(option) => (
            <label class="choice-option">
              <input
                type="radio"
                name={name}
                checked={props.chosen === option}
                onChange={() => props.onChoose(option)}
              />
              <span class="choice-words">{props.words[option]}</span>
            </label>
          )}
        </For>
      </div>
    </fieldset>
  );
}
