/** The gaps between sung phrases, and whose fill each is. */
import type { GapOwner } from "@halflap/board/singing";
import type { Gap } from "@halflap/timeline/timeline";
import { For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { singingWords } from "../words/singing.ts";
import { placeWords } from "./places.ts";
import type { SectionVoice } from "./section-voice.ts";

const owners: readonly GapOwner["owner"][] = ["upper", "lower", "both", "open"];

/** One choice a gap. */
export function GapList(props: { readonly voice: SectionVoice }) {
  const desk = useDesk();
  const words = (at: number) =>
    placeWords(props.voice.section()?.bars ?? [], at, props.voice.beat());
  const choose = (gap: Gap, value: string) =>
    props.voice.giveGap(
      gap,
      owners.find((owner) => owner === value),
    );
  return (
    <section aria-labelledby="gaps-title">
      <h3 id="gaps-title" class="label">
        {singingWords.gaps}
      </h3>
      <Show
        when={props.voice.gaps().length > 0}
        fallback={<p class="small soft">{singingWords.noGaps}</p>}
      >
        <p class="small soft">{singingWords.gapsHint}</p>
        <ul class="singing-choices">
          <For each={props.voice.gaps()}>
            {(gap) => (
              <li>
                <label class="singing-choice">
                  <span>{singingWords.gap(words(gap.start), words(gap.end))}</span>
                  <select
                    class="field"
                    aria-label={singingWords.whoseGap(words(gap.start))}
                    disabled={!desk.session.mayEditChart()}
                    onChange={(event) => choose(gap, event.currentTarget.value)}
                  >
                    <option value="" selected={gap.owner === undefined}>
                      {singingWords.notSaid}
                    </option>
                    <For each={owners}>
                      {(owner) => (
                        <option value={owner} selected={gap.owner === owner}>
                          {singingWords.owner[owner]}
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
