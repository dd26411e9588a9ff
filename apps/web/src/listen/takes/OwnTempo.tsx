/** Says why a take is not heard at the tempo that is set, and turns the tempo to the take's. */
import type { TakeHead } from "@halflap/board/take";
import { Show } from "solid-js";
import { takeWords } from "../../words/takes.ts";
import type { Takes } from "./create-takes.ts";

/** Nothing where the tempos agree. */
export function OwnTempo(props: { readonly take: TakeHead; readonly takes: Takes }) {
  return (
    <Show when={!props.takes.isAtTempo(props.take)}>
      <p class="take-says small">
        {takeWords.otherTempo(props.take.tempo)}
        <Show when={props.takes.canTurnTempoTo(props.take)} fallback={takeWords.tempoOutOfReach}>
          <button
            type="button"
            class="button bare small"
            onClick={() => props.takes.turnTempoTo(props.take)}
          >
            {takeWords.turnTempo(props.take.tempo)}
          </button>
        </Show>
      </p>
    </Show>
  );
}
