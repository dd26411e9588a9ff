/** A dialog that lies on the board like a sheet of paper; Escape or its button closes it. */
import "./Sheet.css";
import { type JSX, onCleanup, onMount } from "solid-js";
import { boardWords } from "../words/board.ts";

/** Open for as long as it exists. */
export function Sheet(props: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: JSX.Element;
}) {
  let dialog: HTMLDialogElement | undefined;
  onMount(() => dialog?.showModal());
  onCleanup(() => dialog?.close());
  return (
    <dialog
      ref={dialog}
      class="sheet"
      aria-label={props.title}
      onClose={() => props.onClose()}
      onKeyDown={(event) => event.stopPropagation()}
    >
      <header class="sheet-head">
        <h2 class="heading">{props.title}</h2>
        <button type="button" class="button bare" onClick={() => props.onClose()}>
          {boardWords.close}
        </button>
      </header>
      {props.children}
    </dialog>
  );
}
