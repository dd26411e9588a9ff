/** How strict the checker is: every limit of this board by what it is about, typed or set back. */
import { type LimitName, limitNames, limitsOf, limitTable } from "@halflap/checker/thresholds";
import { createMemo, createUniqueId, For, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { limitGroupNames, limitsWords } from "../words/limits.ts";
import { ruleNames } from "../words/rules.ts";
import { Dialog } from "./Dialog.tsx";
import { type LimitGroup, limitFigure, limitGroups, typedLimit } from "./limit-groups.ts";
import "./LimitsDialog.css";

/** What is changed counts at once, on everybody's screen. */
export function LimitsDialog(props: {
  readonly session: Session;
  readonly onClose: () => void;
}): JSX.Element {
  const own = createMemo(() => limitNames.filter((name) => props.session.board.limits.has(name)));
  const resetAll = () => {
    for (const name of own()) props.session.chart.setLimit(name, undefined);
  };
  return (
    <Dialog title={limitsWords.title} onClose={() => props.onClose()}>
      <div class="limits">
        <p class="soft">{limitsWords.about}</p>
        <Show when={own().length > 0}>
          <div class="limits-own">
            <span class="strong">{limitsWords.own(own().length)}</span>
            <button type="button" class="button small" onClick={resetAll}>
              {limitsWords.resetAll}
            </button>
          </div>
        </Show>
        <For each={limitGroups}>
          {(group) => <Group group={group} session={props.session} own={own()} />}
        </For>
      </div>
    </Dialog>
  );
}

/** Folded, but open where the band has set something. */
function Group(props: {
  readonly group: LimitGroup;
  readonly session: Session;
  readonly own: readonly LimitName[];
}): JSX.Element {
  const ownHere = () =>
    props.group.rules.flatMap(({ limits }) => limits.filter((name) => props.own.includes(name)));
  return (
    <details class="limit-group">
      <summary class="strong">
        {limitGroupNames[props.group.name]}
        <Show when={ownHere().length > 0}>
          <span class="small soft"> {limitsWords.own(ownHere().length)}</span>
        </Show>
      </summary>
      <Show when={props.group.name === "hand" || props.group.name === "rhythm"}>
        <p class="small soft">{limitsWords.caution}</p>
      </Show>
      <For each={props.group.rules}>
        {({ rule, limits }) => (
          <fieldset class="limit-rule">
            <legend class="strong small">{ruleNames[rule]}</legend>
            <For each={limits}>{(name) => <Limit name={name} session={props.session} />}</For>
          </fieldset>
        )}
      </For>
    </details>
  );
}

function Limit(props: { readonly name: LimitName; readonly session: Session }): JSX.Element {
  const id = createUniqueId();
  const limit = () => limitTable[props.name];
  const isOwn = () => props.session.board.limits.has(props.name);
  const figure = createMemo(() =>
    limitFigure(props.name, limitsOf(props.session.board)[props.name]),
  );
  const usual = () => limitFigure(props.name, limit().value).value;
  const type = (field: HTMLInputElement) => {
    const typed = typedLimit(props.name, field.valueAsNumber);
    if (typed) props.session.chart.setLimit(props.name, typed.set);
    field.value = String(figure().value);
  };
  return (
    <div class="limit" data-own={isOwn() ? "" : undefined}>
      <label for={id}>{limit().words}</label>
      <span class="limit-figure">
        <input
          id={id}
          class="field"
          type="number"
          inputmode="decimal"
          step="any"
          min={figure().least}
          max={figure().most}
          value={figure().value}
          aria-describedby={`${id}-about`}
          onChange={(event) => type(event.currentTarget)}
        />
        <span class="small">{figure().unit}</span>
      </span>
      <p class="small soft" id={`${id}-about`}>
        {limitsWords.range(figure().least, figure().most)}, {limitsWords.comesWith(usual())};{" "}
        {limitsWords.source(limit().source)}
      </p>
      <Show when={isOwn()}>
        <button
          type="button"
          class="button small"
          aria-label={limitsWords.resetNamed(limit().words)}
          onClick={() => props.session.chart.setLimit(props.name, undefined)}
        >
          {limitsWords.reset}
        </button>
      </Show>
    </div>
  );
}
