/** The button that plays the board in every browser that has it open. */
import { type JSX, Show } from "solid-js";
import { togetherWords } from "../../words/together.ts";
import { useListening } from "../create-listening.ts";

/** Gone while it is played already. */
export function StartTogether(): JSX.Element {
  const { together } = useListening();
  return (
    <Show when={!together.isMeeting() && together.place() === undefined}>
      <button
        type="button"
        class="button small"
        disabled={!together.isReachable()}
        title={together.isReachable() ? togetherWords.startHint : togetherWords.away}
        onClick={() => together.start()}
      >
        {togetherWords.start}
      </button>
    </Show>
  );
}
