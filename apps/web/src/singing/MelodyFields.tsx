/** The melody of each phrase, for those who write it down. */
import { parseMelodyText, printMelodyText } from "@halflap/board/melody-text";
import { accidentalsOf } from "@halflap/theory/key";
import type { Sung } from "@halflap/timeline/timeline";
import { createSignal, For, Show } from "solid-js";
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
        <For each={props.voice.sung()}>
          {(sung) => <MelodyField voice={props.voice} sung={sung} />}
        </For>
      </details>
    </Show>
  );
}

function MelodyField(props: { readonly voice: SectionVoice; readonly sung: Sung }) {
  const desk = useDesk();
  const [problem, setProblem] = createSignal<string>();
  const phrase = () => props.sung.phrase;
  const stretch = () => ({
    start: phrase().start,
    length: phrase().length,
    beat: props.voice.beat(),
  });
  const label = () =>
    singingWords.phrase(
      placeWords(props.voice.section()?.bars ?? [], props.sung.start, props.voice.beat()),
    );
  const write = (text: string) => {
    const read = text.trim() === "" ? undefined : parseMelodyText(text, stretch());
    if (read !== undefined && !read.ok) {
      setProblem(`${read.error.read} ${read.error.words}`.trim());
      return;
    }
    setProblem(undefined);
    desk.session.singing.rewritePhrases([{ ...phrase(), melody: read?.value ?? [] }], []);
  };
  return (
    <div>
      <label>
        <span class="label small">{label()}</span>
        <input
          class="field"
          value={printMelodyText(phrase().melody, stretch(), accidentalsOf(desk.session.board.key))}
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
