/** My name as the others see it, changed in place. */
import { createSignal, type JSX, Show } from "solid-js";
import { remember } from "../session/remembered.ts";
import { shareWords } from "../words/share.ts";

/** Also remembered for the next board. */
export function OwnName(props: {
  readonly name: string;
  readonly onName: (name: string) => void;
}): JSX.Element {
  const [isWriting, setWriting] = createSignal(false);
  let field: HTMLInputElement | undefined;
  let renamer: HTMLButtonElement | undefined;
  const onSubmit = (event: SubmitEvent) => {
    event.preventDefault();
    const name = field?.value.trim() ?? "";
    setWriting(false);
    renamer?.focus();
    if (name === "" || name === props.name) return;
    remember("name", name);
    props.onName(name);
  };
  return (
    <Show
      when={isWriting()}
      fallback={
        <button ref={renamer} type="button" class="button" onClick={() => setWriting(true)}>
          {shareWords.rename}
        </button>
      }
    >
      <form class="share-acts" onSubmit={onSubmit}>
        <input
          ref={(element) => {
            field = element;
            queueMicrotask(() => element.select());
          }}
          class="field"
          aria-label={shareWords.name}
          maxlength={40}
          value={props.name}
        />
        <button type="submit" class="button main">
          {shareWords.save}
        </button>
      </form>
    </Show>
  );
}
