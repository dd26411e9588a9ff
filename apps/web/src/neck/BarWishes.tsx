/** What the lane does in this bar beyond its grips: lay out, and a short text on it. */
import "./BarWishes.css";
import { createEffect, createSignal, Show } from "solid-js";
import { neckWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";

/** A mark is kept when the field is left or Enter is pressed. */
export function BarWishes(props: { readonly slot: NeckSlot }) {
  const [text, setText] = createSignal("");
  createEffect(() => setText(props.slot.mark()));
  const keep = () => {
    if (text().trim() !== props.slot.mark()) props.slot.setMark(text().trim());
  };
  return (
    <form
      class="bar-wishes"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <label class="bar-mark">
        <span class="label small">{neckWords.mark}</span>
        <input
          class="field"
          maxlength="60"
          placeholder={neckWords.markHint}
          value={text()}
          onInput={(event) => setText(event.currentTarget.value)}
          onBlur={keep}
        />
      </label>
      <button
        type="button"
        class="button"
        aria-pressed={props.slot.rests()}
        onClick={() => props.slot.layOut(!props.slot.rests())}
      >
        {props.slot.rests() ? neckWords.playAgain : neckWords.layOut}
      </button>
      <Show when={props.slot.rests()}>
        <p class="small soft">{neckWords.restsHere}</p>
      </Show>
    </form>
  );
}
