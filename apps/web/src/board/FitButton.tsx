/** The way from the board to parts that are worked out for it. */
import { Show } from "solid-js";
import { boardWords, keyWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { KeyHint } from "./KeyHint.tsx";

/** Nothing while there are no bars to fit. */
export function FitButton() {
  const desk = useDesk();
  const hasBars = () => desk.session.board.sections.some(({ bars }) => bars.length > 0);
  return (
    <Show when={hasBars()}>
      <button
        type="button"
        class="button small board-fit"
        title={keyWords.fit}
        onClick={() => desk.openSidePanel({ kind: "fit" })}
      >
        {boardWords.fit} <KeyHint name="fit" />
      </button>
    </Show>
  );
}
