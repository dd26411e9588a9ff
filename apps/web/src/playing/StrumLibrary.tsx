/** The lane's patterns, each as a small picture with how much of the tune it plays. */
import "./StrumLibrary.css";
import { strumsMax } from "@halflap/board/limits";
import type { Strum } from "@halflap/board/playing";
import { For, Show } from "solid-js";
import { playedWords } from "../words/played.ts";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";
import { isUnused } from "./in-force.ts";
import { StrumPicture } from "./StrumPicture.tsx";
import { blankStrum } from "./step-grid.ts";

/** A press shows a pattern above; only what is set nowhere can be deleted. */
export function StrumLibrary(props: { readonly playing: Playing }) {
  const strums = () => [...props.playing.lane().strums.values()];
  return (
    <Show when={strums().length > 0}>
      <div class="playing-group">
        <h3 class="label small">
          {props.playing.mayWrite() ? playingWords.library : playingWords.libraryOf}
        </h3>
        <ul class="strum-list">
          <For each={strums()}>{(strum) => <Entry playing={props.playing} strum={strum} />}</For>
        </ul>
        <Show when={props.playing.mayWrite()}>
          <Show
            when={props.playing.hasRoomForStrum()}
            fallback={<p class="small soft">{playingWords.libraryFull(strumsMax)}</p>}
          >
            <button
              type="button"
              class="button strum-new"
              onClick={() => props.playing.addStrum(blankStrum(props.playing.meter()))}
            >
              {playingWords.newStrum}
            </button>
          </Show>
        </Show>
      </div>
    </Show>
  );
}

function Entry(props: { readonly playing: Playing; readonly strum: Strum }) {
  const name = () => props.strum.name || playedWords.unnamed;
  return (
    <li class="strum-entry">
      <button
        type="button"
        class="strum-pick"
        aria-pressed={props.playing.shown()?.id === props.strum.id}
        onClick={() => props.playing.pick(props.strum.id)}
      >
        <span class="strum-words">
          <span class="strong">{name()}</span>
          <span class="small soft">
            {playingWords.inBars(props.playing.barsWith(props.strum.id))}
          </span>
        </span>
        <StrumPicture strum={props.strum} beat={props.playing.beat()} />
      </button>
      <Show when={props.playing.mayWrite() && isUnused(props.playing.lane(), props.strum.id)}>
        <button
          type="button"
          class="button bare"
          aria-label={playingWords.removeStrum(name())}
          onClick={() => props.playing.removeStrum(props.strum.id)}
        >
          {playingWords.remove}
        </button>
      </Show>
    </li>
  );
}
