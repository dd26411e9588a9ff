/** What else lies on the neck, which way round it is, and the guitar's own settings. */
import "./NeckOptions.css";
import { Show } from "solid-js";
import { otherLane } from "../board/desk.ts";
import { neckWords, setupWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";
import type { NeckView } from "./neck-view.ts";

/** A line of switches that double as the key to the drawing. */
export function NeckOptions(props: {
  readonly slot: NeckSlot;
  readonly view: NeckView;
  readonly onSetUp: () => void;
}) {
  return (
    <div class="neck-options small" role="group" aria-label={neckWords.show}>
      <button
        type="button"
        class="neck-option"
        aria-pressed={props.view.showsBefore()}
        onClick={() => props.view.setBefore(!props.view.showsBefore())}
      >
        <span class="ghost-sign" aria-hidden="true">
          [
        </span>
        {neckWords.before}
      </button>
      <button
        type="button"
        class="neck-option"
        aria-pressed={props.view.showsAfter()}
        onClick={() => props.view.setAfter(!props.view.showsAfter())}
      >
        {neckWords.after}
        <span class="ghost-sign" aria-hidden="true">
          ]
        </span>
      </button>
      <button
        type="button"
        class="neck-option"
        aria-pressed={props.view.showsOther()}
        onClick={() => props.view.setOther(!props.view.showsOther())}
      >
        <span
          class="their-sign"
          data-lane={otherLane(props.slot.place().lane)}
          aria-hidden="true"
        />
        {props.slot.whoseOther()}
      </button>
      <button
        type="button"
        class="neck-option"
        aria-pressed={props.view.isMirrored()}
        onClick={() => props.view.mirror(!props.view.isMirrored())}
      >
        {neckWords.mirror}
      </button>
      <Show when={props.slot.mayWrite()}>
        <button type="button" class="neck-option" onClick={() => props.onSetUp()}>
          {setupWords.open}…
        </button>
      </Show>
    </div>
  );
}
