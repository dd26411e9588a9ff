/** How it is played to one person: how far it swings, and whether what is pointed at is heard. */

import { ticks, ticksPerQuarter } from "@halflap/theory/units";
import { swingMax, swingMin, usualSwing } from "@halflap/timeline/swing";
import { createUniqueId, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { listenWords } from "../words/listen.ts";
import { drawerWords, pointingWords } from "../words/listen-drawer.ts";
import { useListening } from "./create-listening.ts";
import type { PointingChoice } from "./create-pointing.ts";
import { hasSwing } from "./has-swing.ts";

const pointingChoices: readonly PointingChoice[] = ["off", "lanes", "lane"];

/** Nothing of it changes the board. */
export function HowPart() {
  const listening = useListening();
  const id = createUniqueId();
  return (
    <fieldset class="listen-how">
      <legend class="label">{drawerWords.how}</legend>
      <SwingField />
      <div class="listen-pointing">
        <label class="small strong" for={id}>
          {drawerWords.pointing}
        </label>
        <select
          id={id}
          class="field"
          onChange={(event) => {
            const { value } = event.currentTarget;
            const choice = pointingChoices.find((each) => each === value);
            listening.pointing.setChoice(choice ?? "off");
          }}
        >
          <For each={pointingChoices}>
            {(choice) => (
              <option value={choice} selected={listening.pointing.choice() === choice}>
                {pointingWords[choice]}
              </option>
            )}
          </For>
        </select>
        <p class="small soft">{drawerWords.pointingHint}</p>
      </div>
    </fieldset>
  );
}

/** From even to three to one; pressing the figure goes back to two to one. */
function SwingField() {
  const desk = useDesk();
  const listening = useListening();
  const id = createUniqueId();
  const swing = () => listening.wishes().swing;
  const percent = () => listenWords.percent(swing() / ticksPerQuarter);
  const spoken = () => `${percent()}, ${drawerWords.ratio(swing() / (ticksPerQuarter - swing()))}`;
  const swings = () => hasSwing(desk.session.board);
  return (
    <div>
      <div class="listen-tempo">
        <label class="small strong" for={id}>
          {drawerWords.swing}
        </label>
        <input
          id={id}
          type="range"
          min={swingMin}
          max={swingMax}
          step={1}
          value={swing()}
          disabled={!swings()}
          aria-valuetext={spoken()}
          onInput={(event) => listening.wish({ swing: ticks(event.currentTarget.valueAsNumber) })}
        />
        <button
          type="button"
          class="button bare small listen-figure"
          title={drawerWords.usualSwing}
          aria-label={`${spoken()}: ${drawerWords.usualSwing}`}
          disabled={!swings() || swing() === usualSwing}
          onClick={() => listening.wish({ swing: usualSwing })}
        >
          {percent()}
        </button>
      </div>
      <p class="small soft">
        <Show when={swings()} fallback={drawerWords.noSwing}>
          {drawerWords.swingHint}
        </Show>
      </p>
    </div>
  );
}
