/** One sentence on what to try, on a demo board that was just made. */
import type { BoardId } from "@halflap/wire/api";
import { createSignal, type JSX, Show } from "solid-js";
import { hintWords } from "../words/app.ts";
import { hintOf, setHint } from "./hints.ts";
import { createRootSign } from "./root-sign.ts";
import { Strip } from "./Strip.tsx";

/** Stays until it was read. */
export function HintStrip(props: { readonly board: BoardId }): JSX.Element {
  const [hint, show] = createSignal(hintOf(props.board));
  createRootSign("hint", () => hint() !== undefined);
  const dismiss = () => {
    show(undefined);
    setHint(props.board, undefined);
  };
  return (
    <Show when={hint()}>
      {(kind) => (
        <Strip label={hintWords.label} words={hintWords[kind()]} tone="hint">
          <button type="button" class="button" onClick={dismiss}>
            {hintWords.dismiss}
          </button>
        </Strip>
      )}
    </Show>
  );
}
