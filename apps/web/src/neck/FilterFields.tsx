/** What a player asks of the suggested grips. */
import { For } from "solid-js";
import { areaWords, countWords, neckWords, stringWords } from "../words/neck.ts";
import { areas, counts, type Filter, stringChoices } from "./filter.ts";

/** Folded away until wanted; the line that opens it says how many grips fit. */
export function FilterFields(props: {
  readonly filter: Filter;
  readonly whose: string;
  /** undefined while they are being searched. */
  readonly count: number | undefined;
  readonly onChange: (filter: Filter) => void;
}) {
  const change = (part: Partial<Filter>) => props.onChange({ ...props.filter, ...part });
  return (
    <details class="filter">
      <summary>
        <span class="strong">
          {props.count === undefined
            ? neckWords.suggestions
            : neckWords.suggestionsCount(props.count)}
        </span>
        <span class="filter-open small">{neckWords.filters}</span>
      </summary>
      <div class="filter-fields small">
        <Choice
          label={neckWords.countLabel}
          values={counts}
          words={countWords}
          chosen={props.filter.count}
          onChoose={(count) => change({ count })}
        />
        <Choice
          label={neckWords.stringsLabel}
          values={stringChoices}
          words={stringWords}
          chosen={props.filter.strings}
          onChoose={(strings) => change({ strings })}
        />
        <Choice
          label={neckWords.areaLabel}
          values={areas}
          words={areaWords}
          chosen={props.filter.area}
          onChoose={(area) => change({ area })}
        />
        <Tick
          label={neckWords.clearOnly(props.whose)}
          on={props.filter.clear}
          onTurn={(clear) => change({ clear })}
        />
        <Tick
          label={neckWords.rootlessAllowed}
          on={props.filter.rootless}
          onTurn={(rootless) => change({ rootless })}
        />
        <Tick
          label={neckWords.openAllowed}
          on={props.filter.openStrings}
          onTurn={(openStrings) => change({ openStrings })}
        />
        <Tick
          label={neckWords.mutesAllowed}
          on={props.filter.innerMutes}
          onTurn={(innerMutes) => change({ innerMutes })}
        />
      </div>
    </details>
  );
}

function Choice<T extends string>(props: {
  readonly label: string;
  readonly values: readonly T[];
  readonly words: Readonly<Record<T, string>>;
  readonly chosen: T;
  readonly onChoose: (value: T) => void;
}) {
  const choose = (text: string) => {
    const value = props.values.find((each) => each === text);
    if (value !== undefined) props.onChoose(value);
  };
  return (
    <label class="filter-choice">
      <span>{props.label}</span>
      <select
        class="field"
        value={props.chosen}
        onChange={(event) => choose(event.currentTarget.value)}
      >
        <For each={props.values}>
          {(value) => <option value={value}>{props.words[value]}</option>}
        </For>
      </select>
    </label>
  );
}

function Tick(props: {
  readonly label: string;
  readonly on: boolean;
  readonly onTurn: (on: boolean) => void;
}) {
  return (
    <label class="filter-switch">
      <input
        type="checkbox"
        checked={props.on}
        onChange={(event) => props.onTurn(event.currentTarget.checked)}
      />
      <span>{props.label}</span>
    </label>
  );
}
