/** A text to take along, with a button that copies it. */
import { createSignal, createUniqueId, type JSX, Show } from "solid-js";
import { appWords } from "../words/app.ts";
import { CopyIcon } from "./icons.tsx";
import { copyText } from "./take-copy.ts";
import "./CopyField.css";

/** One line, or with `rows` several; selected as a whole when it gets the focus. */
export function CopyField(props: {
  readonly label: string;
  readonly text: string;
  readonly rows?: number;
}): JSX.Element {
  const id = createUniqueId();
  const [copied, setCopied] = createSignal<boolean>();
  const selectAll = (event: { currentTarget: HTMLInputElement | HTMLTextAreaElement }) =>
    event.currentTarget.select();
  return (
    <div class="copy-field" data-many={props.rows !== undefined}>
      <label class="label" for={id}>
        {props.label}
      </label>
      <Show
        when={props.rows}
        fallback={<input id={id} class="field" readonly value={props.text} onFocus={selectAll} />}
      >
        {(rows) => (
          <textarea id={id} class="field" readonly rows={rows()} onFocus={selectAll}>
            {props.text}
          </textarea>
        )}
      </Show>
      <button
        type="button"
        class="button"
        onClick={async () => setCopied(await copyText(props.text))}
      >
        <CopyIcon />
        {copied() ? appWords.copied : appWords.copy}
      </button>
      <p class="copy-field-problem small problem" role="status">
        {copied() === false ? appWords.copyFailed : ""}
        <span class="spoken">{copied() ? appWords.copied : ""}</span>
      </p>
    </div>
  );
}
