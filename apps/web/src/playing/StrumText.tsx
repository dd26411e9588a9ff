/** The pattern as it is typed; a text that can't be read stays, with what is wrong where. */
import {
  parseStrumText,
  printStrumText,
  type StrumTextError,
  stepFor,
} from "@halflap/board/strum-text";
import { createEffect, createSignal, on, Show } from "solid-js";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";

/** Enter keeps it. As many steps as fill the bar evenly are taken to fill it. */
export function StrumText(props: { readonly playing: Playing }) {
  const [text, setText] = createSignal("");
  const [error, setError] = createSignal<StrumTextError>();
  let field: HTMLInputElement | undefined;
  const printed = () => {
    const strum = props.playing.shown();
    return strum ? printStrumText(strum, props.playing.beat()) : "";
  };
  createEffect(
    on([() => props.playing.barId(), printed], () => {
      setText(printed());
      setError(undefined);
    }),
  );
  const keep = () => {
    if (text().trim() === printed()) return setError(undefined);
    const read = parseStrumText(text());
    if (!read.ok) {
      setError(read.error);
      return;
    }
    setError(undefined);
    const length = props.playing.bar()?.length;
    const fitting = length && stepFor(length, read.value.length);
    const step = fitting ?? props.playing.draft().step;
    props.playing.changeStrum({ steps: read.value, step });
    setText(printed());
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        keep();
        const wrong = error();
        if (wrong) field?.setSelectionRange(wrong.column, wrong.column + wrong.read.length);
      }}
    >
      <label>
        <span class="label small">{playingWords.typed}</span>
        <input
          ref={field}
          class="field typed-field"
          value={text()}
          placeholder="D.DU .UDU"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={error() !== undefined}
          aria-describedby="strum-typed"
          onInput={(event) => setText(event.currentTarget.value)}
          onBlur={keep}
        />
      </label>
      <div id="strum-typed" class="typed-words small" aria-live="polite">
        <Show when={error()} fallback={<span class="soft">{playingWords.typedStrumHint}</span>}>
          {(wrong) => (
            <p class="problem">
              {playingWords.at(wrong().column, wrong().read)} {wrong().words}
            </p>
          )}
        </Show>
      </div>
    </form>
  );
}
