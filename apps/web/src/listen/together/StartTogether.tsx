/** The button that plays the board in every browser that has it open. */
import { type JSX, Show } from "solid-js";
import { useDesk } from "../../board/desk.ts";
import { togetherWords } from "../../words/together.ts";
import { useListening } from "../create-listening.ts";

/** From where the keys stand; gone while it is played already. */
export function StartTogether(): JSX.Element {
  const desk = useDesk();
  const { together } = useListening();
  return (
    <Show when={!together.isMeeting() && together.place() === undefined}>
      <button
        type="button"
        class="button small"
        disabled={!together.isReachable()}
        title={together.isReachable() ? togetherWords.startHint : togetherWords.away}
        onClick={() => together.start(desk.place()?.bar)}
      >
        {togetherWords.start}
      </button>
    </Show>
  );
}
