/** What the lane does in this bar beyond its grips: lay out, and a short text on it. */
import "./BarWishes.css";
import type { BarId } from "@halflap/board/board";
import { createEffect, createSignal, on, onCleanup, Show, untrack } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { neckWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";

/**
 * A mark is kept when the field is left or Enter is pressed, in the bar in which it was typed.
 */
export function BarWishes(props: { readonly slot: NeckSlot }) {
  const desk = useDesk();
  const [typed, setTyped] = createSignal<{ readonly text: string; readonly bar: BarId }>();
  const type = (text: string) => setTyped({ text, bar: props.slot.place().bar });
  const keep = () => {
    const mine = typed();
    setTyped(undefined);
    if (mine !== undefined) desk.session.lane()?.setMark(mine.bar, mine.text);
  };
  createEffect(on(() => props.slot.place().bar, keep, { defer: true }));
  onCleanup(() => untrack(keep));
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
          value={typed()?.text ?? props.slot.mark()}
          onInput={(event) => type(event.currentTarget.value)}
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
