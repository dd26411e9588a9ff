/** A take that the server does not have yet. */
import { Show } from "solid-js";
import { SureButton } from "../../app/SureButton.tsx";
import { sendWords, sentWords, takeWords } from "../../words/takes.ts";
import { saveFile } from "../save-file.ts";
import type { Takes } from "./create-takes.ts";

/** What was refused can be tried again, saved as a file, or thrown away: nothing is lost. */
export function UnsentEntry(props: { readonly id: string; readonly takes: Takes }) {
  const found = () => props.takes.sending.unsent().find(({ key }) => key === props.id);
  const sending = () => {
    const state = found()?.state;
    return state?.kind === "sending" ? state : undefined;
  };
  const isBehind = () => props.takes.sending.unsent().some(({ state }) => state.kind === "sending");
  return (
    <Show when={found()}>
      {(take) => (
        <li class="take" data-unsent>
          <span class="take-name">{take().head.name}</span>
          <p class="take-line small">
            <span role="status">{sendWords(take().state, take().isKept, isBehind())}</span>
            {/* Beside what is announced, and told by the bar below. */}
            <span>{sentWords(take().state)}</span>
          </p>
          <Show when={sending()}>
            {(now) => <progress aria-label={take().head.name} value={now().done} />}
          </Show>
          <Show when={take().state.kind !== "sending"}>
            <div class="take-row">
              <button
                type="button"
                class="button small"
                onClick={() => props.takes.sending.retry(props.id)}
              >
                {takeWords.retry}
              </button>
              <button
                type="button"
                class="button small"
                onClick={() => save(take().sound, take().head.name)}
              >
                {takeWords.save}
              </button>
              <SureButton
                words={takeWords.throwAway}
                sure={takeWords.sure}
                onSure={() => props.takes.sending.drop(props.id)}
              />
            </div>
          </Show>
        </li>
      )}
    </Show>
  );
}

function save(sound: Blob, name: string): void {
  saveFile(sound, `${name.replace(/[^\p{L}\p{N}]+/gu, "-")}.${endingOf(sound.type)}`);
}

function endingOf(type: string): string {
  if (type.includes("mp4")) return "m4a";
  return type.includes("ogg") ? "ogg" : "webm";
}
