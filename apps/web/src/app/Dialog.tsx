/**
 * A sheet laid over the page: native <dialog>, with a heading and one way out that is always in
 * sight.
 */
import { createUniqueId, type JSX, onMount } from "solid-js";
import { appWords } from "../words/app.ts";
import { CloseIcon } from "./icons.tsx";
import "./Dialog.css";

/** Open for as long as it is drawn; tells `onClose` when the person is done. */
export function Dialog(props: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: JSX.Element;
}): JSX.Element {
  const id = createUniqueId();
  let dialog: HTMLDialogElement | undefined;
  onMount(() => dialog?.showModal());
  const closeOutside = (event: MouseEvent) => {
    if (event.target === dialog) dialog?.close();
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes a dialog by itself.
    <dialog
      ref={dialog}
      class="sheet-dialog"
      aria-labelledby={id}
      onClose={() => props.onClose()}
      onClick={closeOutside}
    >
      <div class="sheet-dialog-inside">
        <div class="sheet-dialog-head">
          <h2 id={id} class="heading">
            {props.title}
          </h2>
          <button
            type="button"
            class="button bare"
            aria-label={appWords.close}
            onClick={() => dialog?.close()}
          >
            <CloseIcon />
          </button>
        </div>
        {props.children}
      </div>
    </dialog>
  );
}
