/** Who is heard, how loud, and whether it is counted in. */
import { laneIds } from "@halflap/board/board";
import { levelMax, type Mix, usualMix } from "@halflap/sound/mix";
import { For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { listenWords } from "../words/listen.ts";
import { companyWords, drawerWords, partWords } from "../words/listen-drawer.ts";
import { useListening } from "./create-listening.ts";
import { type Company, companyOf, inCompany, isAlone, withAlone, withHeardOf } from "./players.ts";

const companies: readonly Company[] = ["all", "without-me", "only-me"];
const listed = ["upper", "lower", "bass", "drums", "click"] as const;
type Listed = (typeof listed)[number];

/** Whoever owns a lane can leave it out, or leave all others out, with one press. */
export function PlayersPart() {
  const desk = useDesk();
  const listening = useListening();
  /** Who was heard before one part was left alone. */
  let before: Mix | undefined;
  const setAlone = (part: Listed) => {
    const mix = listening.mix();
    if (isAlone(mix, part)) return listening.setMix(withHeardOf(mix, before ?? usualMix));
    if (!listed.some((each) => isAlone(mix, each))) before = mix;
    listening.setMix(withAlone(mix, part));
  };
  return (
    <fieldset class="listen-players">
      <legend class="label">{drawerWords.players}</legend>
      <Show when={desk.session.ownLane()}>
        {(own) => (
          <div class="listen-company">
            <For each={companies}>
              {(company) => (
                <button
                  type="button"
                  class="button small"
                  aria-pressed={companyOf(listening.mix(), own()) === company}
                  onClick={() => listening.setMix(inCompany(listening.mix(), company, own()))}
                >
                  {companyWords[company]}
                </button>
              )}
            </For>
          </div>
        )}
      </Show>
      <For each={listed}>
        {(part) => (
          <Player
            part={part}
            isAlone={isAlone(listening.mix(), part)}
            onAlone={() => setAlone(part)}
          />
        )}
      </For>
      <label class="listen-check">
        <input
          type="checkbox"
          checked={listening.wishes().countsIn}
          onChange={(event) => listening.wish({ countsIn: event.currentTarget.checked })}
        />
        {drawerWords.countIn}
      </label>
      <Show when={!desk.session.board.hasBass}>
        <p class="small soft">{drawerWords.noBass}</p>
      </Show>
    </fieldset>
  );
}

function Player(props: {
  readonly part: Listed;
  readonly isAlone: boolean;
  readonly onAlone: () => void;
}) {
  const desk = useDesk();
  const listening = useListening();
  const setting = () => listening.mix()[props.part];
  const lane = () => laneIds.find((each) => each === props.part);
  const name = () =>
    props.part === desk.session.ownLane()
      ? drawerWords.mine(partWords[props.part])
      : partWords[props.part];
  return (
    <div class="listen-player">
      <label class="listen-check">
        <input
          type="checkbox"
          checked={!setting().isMuted}
          onChange={(event) =>
            listening.setPart(props.part, { isMuted: !event.currentTarget.checked })
          }
        />
        <Show when={lane()}>
          {(known) => <span class="lane-sign" data-lane={known()} aria-hidden="true" />}
        </Show>
        {name()}
      </label>
      <input
        type="range"
        min={0}
        max={levelMax * 100}
        step={10}
        value={Math.round(setting().level * 100)}
        disabled={setting().isMuted}
        aria-label={drawerWords.level(partWords[props.part])}
        aria-valuetext={listenWords.percent(setting().level)}
        onInput={(event) =>
          listening.setPart(props.part, { level: event.currentTarget.valueAsNumber / 100 })
        }
      />
      <button
        type="button"
        class="button small"
        aria-pressed={props.isAlone}
        aria-label={drawerWords.aloneSpoken(partWords[props.part])}
        onClick={() => props.onAlone()}
      >
        {drawerWords.onlyThis}
      </button>
    </div>
  );
}
