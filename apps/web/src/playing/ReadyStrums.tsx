/** Patterns to start from, folded away once there are some of one's own. */
import { createMemo, For, untrack } from "solid-js";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";
import { readyStrums } from "./ready-strums.ts";
import { StrumPicture } from "./StrumPicture.tsx";

/** A press copies one into the lane's patterns, and to work where no other is. */
export function ReadyStrums(props: { readonly playing: Playing }) {
  const ready = createMemo(() => readyStrums(props.playing.meter(), playingWords.readyNames));
  const isOpen = untrack(() => props.playing.lane().strums.size === 0);
  return (
    <details class="ready-strums" open={isOpen}>
      <summary>{playingWords.ready}</summary>
      <p class="small soft">{playingWords.readyHint}</p>
      <ul class="strum-list">
        <For each={ready()}>
          {(strum) => (
            <li class="strum-entry">
              <button
                type="button"
                class="strum-pick"
                disabled={!props.playing.hasRoomForStrum()}
                onClick={() => props.playing.addStrum(strum)}
              >
                <span class="strum-words strong">{strum.name}</span>
                <StrumPicture strum={strum} beat={props.playing.beat()} />
              </button>
            </li>
          )}
        </For>
      </ul>
    </details>
  );
}
