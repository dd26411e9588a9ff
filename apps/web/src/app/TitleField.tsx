/** The board's title, changed in place by whoever may. */
import { createSignal, type JSX, Show } from "solid-js";
import { appWords } from "../words/app.ts";
import "./TitleField.css";

/** Enter or leaving the field takes the new title, Escape leaves the old one. */
export function TitleField(props: {
  readonly title: string;
  readonly mayEdit: boolean;
  readonly onTitle: (title: string) => void;
}): JSX.Element {
  const [isWriting, setWriting] = createSignal(false);
  let button: HTMLButtonElement | undefined;
  const title = () => props.title || appWords.untitled;
  const finish = (written: string | undefined) => {
    if (!isWriting()) return;
    setWriting(false);
    if (written !== undefined && written.trim() !== props.title) props.onTitle(written);
  };
  const onKeyDown = (event: KeyboardEvent & { currentTarget: HTMLInputElement }) => {
    if (event.key !== "Enter" && event.key !== "Escape") return;
    event.preventDefault(); // the key would go on to press the button that comes back
    finish(event.key === "Enter" ? event.currentTarget.value : undefined);
    button?.focus();
  };
  return (
    <h1 class="title-field large strong">
      <Show when={props.mayEdit} fallback={<span class="title-field-text">{title()}</span>}>
        <Show
          when={isWriting()}
          fallback={
            <button
              ref={button}
              type="button"
              class="title-field-text"
              title={appWords.editTitle}
              onClick={() => setWriting(true)}
            >
              {title()}
            </button>
          }
        >
          <input
            ref={(field) => queueMicrotask(() => field.select())}
            class="field"
            aria-label={appWords.boardTitle}
            maxlength={120}
            value={props.title}
            onBlur={(event) => finish(event.currentTarget.value)}
            onKeyDown={onKeyDown}
          />
        </Show>
      </Show>
    </h1>
  );
}
