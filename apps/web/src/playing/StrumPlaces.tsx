/** Where a pattern is played: this bar, its section, the whole lane, or single passes. */
import type { Strum } from "@halflap/board/playing";
import type { StrumPlace } from "@halflap/board/proposal";
import { For } from "solid-js";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";
import { isSetAt } from "./in-force.ts";

type Offer = { readonly place: StrumPlace; readonly words: string };

/** A press sets it there, another takes it away again. */
export function StrumPlaces(props: { readonly playing: Playing; readonly strum: Strum }) {
  const offers = (): readonly Offer[] => {
    const section = props.playing.section();
    if (section === undefined) return [];
    const passes = props.playing.passes();
    return [
      { place: { kind: "bar", bar: props.playing.barId() }, words: playingWords.thisBar },
      { place: { kind: "section", section: section.id }, words: section.name },
      { place: { kind: "lane" }, words: playingWords.wholeLane },
      ...(passes.length < 2 ? [] : passes).map(
        ({ entry, first, last }): Offer => ({
          place: { kind: "pass", entry: entry.id },
          words: playingWords.pass(first, last),
        }),
      ),
    ];
  };
  const isHere = (place: StrumPlace) => isSetAt(props.playing.lane(), place, props.strum.id);
  return (
    <div class="playing-group" role="group" aria-labelledby="strum-places">
      <span id="strum-places" class="label small">
        {playingWords.usedFor}
      </span>
      <div class="playing-row">
        <For each={offers()}>
          {(offer) => (
            <button
              type="button"
              class="button"
              aria-pressed={isHere(offer.place)}
              onClick={() =>
                props.playing.setAt(offer.place, isHere(offer.place) ? undefined : props.strum.id)
              }
            >
              {offer.words}
            </button>
          )}
        </For>
      </div>
    </div>
  );
}
