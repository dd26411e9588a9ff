/** The fill as it is typed; a text that can't be read stays, with what is wrong where. */
import type { NotesTextError } from "@halflap/board/beat-text";
import { parseFillText, printFillText } from "@halflap/board/fill-text";
import type { Fill } from "@halflap/board/playing";
import { ticks } from "@halflap/theory/units";
import { createEffect, createSignal, on, onCleanup, Show } from "solid-js";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";

/** Enter keeps it. */
export function FillText(props: { readonly playing: Playing; readonly fill: Fill }) {
  const [text, setText] = createSignal("");
  const [error, setError] = createSignal<NotesTextError>();
  let field: HTMLInputElement | undefined;
  // A field that is taken away loses the keys too, when there is no fill to ask any more.
  let isHere = true;
  onCleanup(() => {
    isHere = false;
  });
  const stretch = () => ({
    start: props.fill.start,
    length: props.fill.length,
    beat: ticks(props.playing.beat()),
  });
  const printed = () => printFillText(props.fill.notes, stretch());
  createEffect(
    on(printed, (now) => {
      setText(now);
      setError(undefined);
    }),
  );
  const keep = (typed: string) => {
    setText(typed);
    if (typed.trim() === printed()) return setError(undefined);
    const read = parseFillText(typed, stretch(), props.playing.setup());
    setError(read.ok ? undefined : read.error);
    if (!read.ok) return;
    props.playing.changeFill({ ...props.fill, notes: read.value });
    setText(printed());
  };
  const meant = ({ column, read, meant: instead = read }: NotesTextError) =>
    `${text().slice(0, column)}${instead}${text().slice(column + read.length)}`;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        keep(text());
        const wrong = error();
        if (wrong) field?.setSelectionRange(wrong.column, wrong.column + wrong.read.length);
      }}
    >
      <label>
        <span class="label small">{playingWords.typed}</span>
        <input
          ref={field}
          class="field typed-field"
          value={text()}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={error() !== undefined}
          aria-describedby="fill-typed"
          onInput={(event) => setText(event.currentTarget.value)}
          onBlur={() => isHere && keep(text())}
        />
      </label>
      <div id="fill-typed" class="typed-words small" aria-live="polite">
        <Show when={error()} fallback={<Hint />}>
          {(wrong) => (
            <p class="problem">
              {playingWords.at(wrong().column, wrong().read)} {wrong().words}{" "}
              <Show when={wrong().meant}>
                {(instead) => (
                  <button type="button" class="button" onClick={() => keep(meant(wrong()))}>
                    {playingWords.meant(instead())}
                  </button>
                )}
              </Show>
            </p>
          )}
        </Show>
      </div>
    </form>
  );
}

function Hint() {
  return (
    <span class="soft">
      {playingWords.typedFillHint}
      <br />
      {playingWords.typedFillWays}
    </span>
  );
}
