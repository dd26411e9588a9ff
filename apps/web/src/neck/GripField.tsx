/** The field in which a grip is typed, with what is wrong and what was probably meant. */
import "./GripField.css";
import type { GripError } from "@halflap/theory/grip";
import { parseGrip, printGrip } from "@halflap/theory/grip";
import { createEffect, createSignal, on, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { neckWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";

/** Enter places it; a text that can't be read stays as it was typed. */
export function GripField(props: { readonly slot: NeckSlot }) {
  const desk = useDesk();
  const [text, setText] = createSignal("");
  const [error, setError] = createSignal<GripError>();
  let field: HTMLInputElement | undefined;

  createEffect(
    on([() => props.slot.place(), () => props.slot.grip()], () => {
      const grip = props.slot.grip();
      setText(grip ? printGrip(grip) : "");
      setError(undefined);
    }),
  );
  createEffect(() => {
    const start = desk.typed();
    if (start === undefined) return;
    setText(start);
    field?.focus();
    field?.setSelectionRange(start.length, start.length);
  });

  const place = (typed: string) => {
    const reading = parseGrip(typed, props.slot.setup());
    setError(reading.ok ? undefined : reading.error);
    if (!reading.ok) {
      field?.focus();
      field?.setSelectionRange(
        reading.error.column,
        reading.error.column + reading.error.read.length,
      );
      return;
    }
    props.slot.placeGrip(reading.value);
    setText(printGrip(reading.value));
  };
  const clear = () => {
    props.slot.clearGrip();
    field?.focus();
  };
  return (
    <form
      class="grip-field"
      onSubmit={(event) => {
        event.preventDefault();
        place(text());
      }}
    >
      <label class="grip-field-text">
        <span class="spoken">{neckWords.grip}</span>
        <input
          ref={field}
          class="field"
          value={text()}
          placeholder={neckWords.typeHint}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={error() !== undefined}
          aria-describedby="grip-problem"
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button">
        {neckWords.place}
      </button>
      <Show when={props.slot.grip()}>
        <button type="button" class="button bare" onClick={clear}>
          {neckWords.clear}
        </button>
      </Show>
      <div id="grip-problem" class="grip-problem small" aria-live="polite">
        <Show when={error()}>{(problem) => <Problem error={problem()} onMeant={place} />}</Show>
      </div>
    </form>
  );
}

function Problem(props: { readonly error: GripError; readonly onMeant: (text: string) => void }) {
  return (
    <p class="problem">
      {neckWords.problem[props.error.kind]}{" "}
      <Show when={props.error.read !== ""}>
        {neckWords.at(props.error.column, props.error.read)}{" "}
      </Show>
      <Show when={props.error.meant}>
        {(meant) => (
          <button type="button" class="button small" onClick={() => props.onMeant(meant())}>
            {neckWords.meant(meant())}
          </button>
        )}
      </Show>
    </p>
  );
}
