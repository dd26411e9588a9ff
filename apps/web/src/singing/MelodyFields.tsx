/** The melody of each phrase, for those who write it down. */
import { parseMelodyText, printMelodyText } from "@halflap/board/melody-text";
import type { Phrase } from "@halflap/board/singing";
import { accidentalsOf } from "@halflap/theory/key";
import { createMemo, createSignal, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { singingWords } from "../words/singing.ts";
import { placeWords } from "./places.ts";
import type { SectionVoice } from "./section-voice.ts";

/** Folded away; nothing while no phrase is marked. */
export function MelodyFields(props: { readonly voice: SectionVoice }) {
  return (
    <Show when={props.voice.sung().length > 0}>
      <details class="melodies">
        <summary class="label">{singingWords.melody}</summary>
        <p class="small soft">{singingWords.melodyHint}</p>
        <For each={props.voice.sung().map(({ phrase }) => phrase)}>
          {(phrase) => <MelodyField voice={props.voice} phrase={phrase} />}
        </For>
      </details>
    </Show>
  );
}

/** Lives as long as its phrase: what is typed stays while others come, go and move. */
function MelodyField(props: { readonly voice: SectionVoice; readonly phrase: Phrase }) {
  const desk = useDesk();
  const [problem, setProblem] = createSignal<string>();
  const stretch = () => ({
    start: props.phrase.start,
    length: props.phrase.length,
    beat: props.voice.beat(),
  });
  const written = createMemo(() =>
    printMelodyText(props.phrase.melody, stretch(), accidentalsOf(desk.session.board.key)),
  );
  const start = () => props.voice.sung().find(({ phrase }) => phrase === props.phrase)?.start ?? 0;
  const label = () =>
    singingWords.phrase(placeWords(props.voice.section()?.bars ?? [], start(), props.voice.beat()));
  const write = (text: string) => {
    const read = text.trim() === "" ? undefined : parseMelodyText(text, stretch());
    if (read !== undefined && !read.ok) {
      setProblem(`${read.error.read} ${read.error.words}`.trim());
      return;
    }
    setProblem(undefined);
    desk.session.singing.rewritePhrases([{ ...props.phrase, melody: read?.value ?? [] }], []);
  };
  return (
    <div>
      <label>
        <span class="label small">{label()}</span>
        <input
          class="field"
          value={written()}
          readonly={!desk.session.mayEditChart()}
          onChange={(event) => write(event.currentTarget.value)}
        />
      </label>
      <Show when={problem()}>
        {(words) => (
          <p class="field-problem small" role="alert">
            {words()}
          </p>
        )}
      </Show>
    </div>
  );
}
