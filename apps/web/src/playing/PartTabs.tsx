/** The three parts of the playing panel as tabs; arrows turn from one to the next. */
import { For } from "solid-js";
import { playingWords } from "../words/playing.ts";

export type PlayingPart = "strum" | "fill" | "bar";

const parts: readonly PlayingPart[] = ["strum", "fill", "bar"];

/** The chosen tab is the one that Tab reaches. */
export function PartTabs(props: {
  readonly chosen: PlayingPart;
  readonly onChoose: (part: PlayingPart) => void;
}) {
  const buttons = new Map<PlayingPart, HTMLButtonElement>();
  const turn = (event: KeyboardEvent) => {
    const by = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
    const next = parts[parts.indexOf(props.chosen) + by];
    if (by === 0 || next === undefined) return;
    event.preventDefault();
    props.onChoose(next);
    buttons.get(next)?.focus();
  };
  return (
    <div class="part-tabs" role="tablist" aria-label={playingWords.partsLabel}>
      <For each={parts}>
        {(part) => (
          <button
            ref={(button) => buttons.set(part, button)}
            type="button"
            class="part-tab"
            role="tab"
            id={`playing-tab-${part}`}
            aria-controls="playing-part"
            aria-selected={props.chosen === part}
            tabindex={props.chosen === part ? 0 : -1}
            onClick={() => props.onChoose(part)}
            onKeyDown={turn}
          >
            {playingWords.parts[part]}
          </button>
        )}
      </For>
    </div>
  );
}
