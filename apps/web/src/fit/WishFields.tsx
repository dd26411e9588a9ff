/** The two fields that wishes are made with: one of several, and yes or no. */
import { For } from "solid-js";

/** A list to choose from; options are told apart by their place in it. */
export function Pick<T>(props: {
  readonly label: string;
  readonly options: readonly T[];
  readonly words: (option: T) => string;
  readonly chosen: T;
  readonly onChoose: (option: T) => void;
}) {
  const choose = (index: number) => {
    const option = props.options.slice(index, index + 1);
    for (const chosen of option) props.onChoose(chosen);
  };
  return (
    <label class="fit-pick">
      <span>{props.label}</span>
      <select
        class="field"
        value={String(props.options.indexOf(props.chosen))}
        onChange={(event) => choose(Number(event.currentTarget.value))}
      >
        <For each={props.options}>
          {(option, index) => (
            <option value={index()} selected={option === props.chosen}>
              {props.words(option)}
            </option>
          )}
        </For>
      </select>
    </label>
  );
}

/** A box to tick. */
export function Tick(props: {
  readonly label: string;
  readonly on: boolean;
  readonly onTurn: (on: boolean) => void;
}) {
  return (
    <label class="fit-tick small">
      <input
        type="checkbox"
        checked={props.on}
        onChange={(event) => props.onTurn(event.currentTarget.checked)}
      />
      <span>{props.label}</span>
    </label>
  );
}
