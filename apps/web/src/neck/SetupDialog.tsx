/** The guitar of one's own lane: its tuning, its capo, and where its frets are counted from. */
import "./SetupDialog.css";
import {
  parseTuning,
  printTuning,
  type TuningError,
  tuningName,
  tuningPresets,
} from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { createSignal, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { Sheet } from "../board/Sheet.tsx";
import { neckWords, setupWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";

const capoMax = 11;

/** Every choice is taken at once, and can be undone like any edit. */
export function SetupDialog(props: { readonly slot: NeckSlot; readonly onClose: () => void }) {
  const desk = useDesk();
  const setup = () => props.slot.setup();
  const preset = () => tuningPresets.find((each) => each.name === tuningName(setup().tuning))?.name;
  const choose = (name: string) => {
    const found = tuningPresets.find((each) => each.name === name);
    if (found) desk.session.lane()?.setTuning(found.tuning);
  };
  return (
    <Sheet title={setupWords.title} onClose={props.onClose}>
      <div class="setup">
        <label>
          <span class="label">{setupWords.tuning}</span>
          <select
            class="field"
            value={preset() ?? ""}
            onChange={(event) => choose(event.currentTarget.value)}
          >
            <Show when={preset() === undefined}>
              <option value="">{setupWords.own}</option>
            </Show>
            <For each={tuningPresets}>
              {(each) => (
                <option value={each.name}>
                  {each.name} · {printTuning(each.tuning)}
                </option>
              )}
            </For>
          </select>
        </label>
        <TypedTuning />
        <label>
          <span class="label">{setupWords.capo}</span>
          <select
            class="field"
            value={String(setup().capo)}
            onChange={(event) =>
              desk.session.lane()?.setCapo(fret(Number(event.currentTarget.value)))
            }
          >
            <option value="0">{setupWords.noCapo}</option>
            <For each={Array.from({ length: capoMax }, (_, index) => index + 1)}>
              {(at) => <option value={String(at)}>{setupWords.capoAt(at)}</option>}
            </For>
          </select>
        </label>
        <fieldset class="setup-from">
          <legend class="label">{setupWords.countFrom}</legend>
          <For each={["nut", "capo"] as const}>
            {(from) => (
              <label class="filter-switch">
                <input
                  type="radio"
                  name="frets-from"
                  checked={setup().fretsFrom === from}
                  onChange={() => desk.session.lane()?.setFretsFrom(from)}
                />
                {from === "nut" ? setupWords.nut : setupWords.fromCapo}
              </label>
            )}
          </For>
        </fieldset>
      </div>
    </Sheet>
  );
}

function TypedTuning() {
  const desk = useDesk();
  const [text, setText] = createSignal("");
  const [error, setError] = createSignal<TuningError>();
  const use = (event: SubmitEvent) => {
    event.preventDefault();
    const reading = parseTuning(text());
    setError(reading.ok ? undefined : reading.error);
    if (reading.ok) desk.session.lane()?.setTuning(reading.value);
  };
  return (
    <form class="setup-typed" onSubmit={use}>
      <label>
        <span class="label small">{setupWords.typed}</span>
        <input
          class="field"
          value={text()}
          placeholder={setupWords.typedHint}
          autocomplete="off"
          aria-invalid={error() !== undefined}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button">
        {setupWords.use}
      </button>
      <Show when={error()}>
        {(problem) => (
          <p class="problem small" role="alert">
            {setupWords.problem[problem().kind]}
            {problem().read === "" ? "" : ` ${neckWords.at(problem().column, problem().read)}`}
          </p>
        )}
      </Show>
    </form>
  );
}
