/** How saving stands, in one or a few words and as the joint: flush when saved, apart when not. */
import { createEffect, createSignal, type JSX, onCleanup } from "solid-js";
import type { SaveState } from "../session/session.ts";
import { stateWords } from "../words/app.ts";
import { Mark } from "./Mark.tsx";
import "./StateLine.css";

/** A screen reader hears of a change at most this often. */
const spokenEveryMs = 3_000;

/** Always in sight. */
export function StateLine(props: { readonly state: SaveState }): JSX.Element {
  const words = () => wordsOf(props.state);
  const spoken = createThrottled(words);
  return (
    <p class="state-line" data-state={props.state.kind}>
      <Mark gap={gapOf(props.state)} />
      <span aria-hidden="true">{words()}</span>
      <span class="spoken" role="status">
        {spoken()}
      </span>
    </p>
  );
}

function wordsOf(state: SaveState): string {
  switch (state.kind) {
    case "offline":
      return stateWords.offline(state.changes, state.isKept);
    case "store-full":
      return stateWords.storeFull(state.changes, state.isKept);
    case "unreadable":
      return stateWords.unreadable(state.changes, state.isKept);
    default:
      return stateWords[state.kind];
  }
}

function gapOf(state: SaveState): "none" | "small" | "wide" {
  switch (state.kind) {
    case "saved":
      return "none";
    case "opening":
    case "sending":
      return "small";
    default:
      return "wide";
  }
}

function createThrottled(words: () => string): () => string {
  const [said, setSaid] = createSignal("");
  let timer: ReturnType<typeof setTimeout> | undefined;
  createEffect(() => {
    words();
    timer ??= setTimeout(() => {
      timer = undefined;
      setSaid(words());
    }, spokenEveryMs);
  });
  onCleanup(() => clearTimeout(timer));
  return said;
}
