/** Each time the form comes through the section: lay out there, or play another pattern. */
import "./PassList.css";
import { For } from "solid-js";
import { playedWords } from "../words/played.ts";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";
import type { SectionPass } from "./in-force.ts";

/** A pass is as long as its section, not only this bar. */
export function PassList(props: { readonly playing: Playing }) {
  return (
    <div class="playing-group">
      <h3 class="label">{playingWords.passes}</h3>
      <p class="small soft">{playingWords.passesHint}</p>
      <ul class="pass-list">
        <For each={props.playing.passes()}>
          {(pass) => <PassRow playing={props.playing} pass={pass} />}
        </For>
      </ul>
    </div>
  );
}

function PassRow(props: { readonly playing: Playing; readonly pass: SectionPass }) {
  const entry = () => props.pass.entry.id;
  const lane = () => props.playing.lane();
  const rests = () => lane().restingPasses.has(entry());
  const name = () =>
    playingWords.passOf(props.playing.section()?.name ?? "", props.pass.first, props.pass.last);
  const setStrum = (value: string) => {
    const strum = [...lane().strums.keys()].find((id) => id === value);
    props.playing.setAt({ kind: "pass", entry: entry() }, strum);
  };
  return (
    <li class="pass-row">
      <span class="small strong">{name()}</span>
      <button
        type="button"
        class="button"
        aria-label={playingWords.passRestsNamed(name())}
        aria-pressed={rests()}
        onClick={() => props.playing.edit([{ kind: "rest-pass", entry: entry(), rest: !rests() }])}
      >
        {playingWords.passRests}
      </button>
      <select
        class="field"
        aria-label={playingWords.passStrum(name())}
        disabled={rests()}
        onChange={(event) => setStrum(event.currentTarget.value)}
      >
        <option value="" selected={!lane().strumming.passes.has(entry())}>
          {playingWords.asBoard}
        </option>
        <For each={[...lane().strums.values()]}>
          {(strum) => (
            <option value={strum.id} selected={lane().strumming.passes.get(entry()) === strum.id}>
              {strum.name || playedWords.unnamed}
            </option>
          )}
        </For>
      </select>
    </li>
  );
}
