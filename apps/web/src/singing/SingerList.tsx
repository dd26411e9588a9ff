/** Who sings each round in which the form plays the section. */
import { voiceId } from "@halflap/board/ids";
import { For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { singingWords } from "../words/singing.ts";
import type { SectionVoice, SungRound } from "./section-voice.ts";

/** One choice a round. */
export function SingerList(props: { readonly voice: SectionVoice }) {
  const desk = useDesk();
  const name = () => props.voice.section()?.name ?? "";
  const choose = (round: SungRound, id: string) => {
    const singers = Array.from({ length: round.entry.times }, (_, index) =>
      index === round.index ? (id === "" ? undefined : voiceId(id)) : round.entry.singers[index],
    );
    desk.session.singing.setSingers(round.entry.id, singers);
  };
  const label = (index: number) =>
    singingWords.round(name(), index + 1, props.voice.rounds().length);
  return (
    <section aria-labelledby="singers-title">
      <h3 id="singers-title" class="label">
        {singingWords.who}
      </h3>
      <Show
        when={props.voice.rounds().length > 0}
        fallback={<p class="small soft">{singingWords.notInForm}</p>}
      >
        <ul class="singing-choices">
          <For each={props.voice.rounds()}>
            {(round, index) => (
              <li>
                <label class="singing-choice">
                  <span>{label(index())}</span>
                  <select
                    class="field"
                    aria-label={singingWords.whoEach(label(index()))}
                    disabled={!desk.session.mayEditChart()}
                    onChange={(event) => choose(round, event.currentTarget.value)}
                  >
                    <option value="" selected={round.entry.singers[round.index] === undefined}>
                      {singingWords.nobody}
                    </option>
                    <For each={desk.session.board.voices}>
                      {(voice) => (
                        <option
                          value={voice.id}
                          selected={round.entry.singers[round.index] === voice.id}
                        >
                          {voice.name}
                        </option>
                      )}
                    </For>
                  </select>
                </label>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </section>
  );
}
