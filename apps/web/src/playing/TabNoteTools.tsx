/** What can be said of the chosen crossing: its fret, how the note sounds, how long it lasts. */
import { bendMax, bendMin } from "@halflap/board/limits";
import { type Fill, type FillNote, fillWays } from "@halflap/board/playing";
import { highestFret, lowestFret } from "@halflap/theory/tuning";
import { type Ticks, ticks } from "@halflap/theory/units";
import { createEffect, For, on, Show } from "solid-js";
import { playedWords } from "../words/played.ts";
import { playingWords } from "../words/playing.ts";
import { beatName, withFractions } from "./beat-name.ts";
import type { Playing } from "./create-playing.ts";
import * as tab from "./tab-grid.ts";

const bends = Array.from({ length: (bendMax - bendMin) * 2 + 1 }, (_, i) => bendMin + i / 2);

/** Everything here has a key on the crossing itself. */
export function TabNoteTools(props: {
  readonly playing: Playing;
  readonly fill: Fill;
  readonly at: tab.Crossing;
  readonly note: FillNote | undefined;
  readonly step: Ticks;
  readonly onStep: (step: Ticks) => void;
  readonly onFret: (fret: number) => void;
  readonly onChange: (notes: readonly FillNote[]) => void;
}) {
  const where = () => beatName(props.fill.start + props.at.start, props.playing.beat());
  return (
    <div class="tab-tools">
      <div class="tab-tools-head">
        <span class="small strong">{playingWords.chosen(props.at.string, where())}</span>
        <label class="tab-step">
          <span class="small soft">{playingWords.grid}</span>
          <select
            class="field"
            onChange={(event) => props.onStep(ticks(Number(event.currentTarget.value)))}
          >
            <For each={tab.tabSteps}>
              {(step) => (
                <option value={step} selected={step === props.step}>
                  {playingWords.gridSteps[step]}
                </option>
              )}
            </For>
          </select>
        </label>
      </div>
      <FretRow playing={props.playing} note={props.note} onFret={props.onFret} />
      <Show when={props.note} fallback={<p class="small soft">{playingWords.chooseCrossing}</p>}>
        {(note) => (
          <NoteTools
            fill={props.fill}
            at={props.at}
            note={note()}
            beat={props.playing.beat()}
            onChange={props.onChange}
          />
        )}
      </Show>
    </div>
  );
}

/** All frets of the neck in a row that scrolls, the chosen one in sight. */
function FretRow(props: {
  readonly playing: Playing;
  readonly note: FillNote | undefined;
  readonly onFret: (fret: number) => void;
}) {
  const frets = () => {
    const [low, high] = [lowestFret(props.playing.setup()), highestFret(props.playing.setup())];
    return Array.from({ length: high - low + 1 }, (_, index) => low + index);
  };
  let row: HTMLDivElement | undefined;
  createEffect(
    on([() => props.note?.fret], ([chosen]) => {
      const button = row?.querySelector<HTMLElement>(`[data-fret="${chosen}"]`);
      if (row && button) row.scrollLeft = button.offsetLeft - row.clientWidth / 2;
    }),
  );
  return (
    <div ref={row} class="fret-row" role="group" aria-label={playingWords.frets}>
      <For each={frets()}>
        {(typed) => (
          <button
            type="button"
            class="fret-key"
            data-fret={typed}
            aria-label={playingWords.fret(typed)}
            aria-pressed={props.note?.fret === typed}
            onClick={() => props.onFret(typed)}
          >
            {typed}
          </button>
        )}
      </For>
    </div>
  );
}

function NoteTools(props: {
  readonly fill: Fill;
  readonly at: tab.Crossing;
  readonly note: FillNote;
  readonly beat: number;
  readonly onChange: (notes: readonly FillNote[]) => void;
}) {
  return (
    <div class="playing-row">
      <label>
        <span class="label small">{playingWords.way}</span>
        <select
          class="field"
          onChange={(event) => {
            const way = fillWays.find((each) => each === event.currentTarget.value);
            if (way) props.onChange(tab.withWay(props.fill, props.at, way));
          }}
        >
          <For each={fillWays}>
            {(way) => (
              <option value={way} selected={way === props.note.way}>
                {playedWords.fillWays[way]}
              </option>
            )}
          </For>
        </select>
      </label>
      <Show when={props.note.way === "bend"}>
        <label>
          <span class="label small">{playingWords.bend}</span>
          <select
            class="field"
            onChange={(event) =>
              props.onChange(tab.withBend(props.fill, props.at, Number(event.currentTarget.value)))
            }
          >
            <For each={bends}>
              {(bend) => (
                <option value={bend} selected={bend === props.note.bend}>
                  {playingWords.tones(withFractions(bend / 2))}
                </option>
              )}
            </For>
          </select>
        </label>
      </Show>
      <LengthField {...props} />
      <button
        type="button"
        class="button"
        aria-pressed={props.note.letRing}
        onClick={() => props.onChange(tab.withRing(props.fill, props.at, !props.note.letRing))}
      >
        {playingWords.ring}
      </button>
      <button
        type="button"
        class="button bare"
        onClick={() => props.onChange(tab.without(props.fill, props.at))}
      >
        {playingWords.removeNote}
      </button>
    </div>
  );
}

function LengthField(props: {
  readonly fill: Fill;
  readonly at: tab.Crossing;
  readonly note: FillNote;
  readonly beat: number;
  readonly onChange: (notes: readonly FillNote[]) => void;
}) {
  const isLoose = () =>
    tab
      .loosened(props.fill)
      .find(({ start, string }) => start === props.at.start && string === props.at.string)
      ?.length === undefined;
  const lengths = () => tab.noteLengths(props.fill, props.note);
  return (
    <label>
      <span class="label small">{playingWords.noteLasts}</span>
      <select
        class="field"
        onChange={(event) => {
          const typed = Number(event.currentTarget.value);
          const length = typed === 0 ? undefined : ticks(typed);
          props.onChange(tab.withLength(props.fill, props.at, length));
        }}
      >
        <option value="0" selected={isLoose()}>
          {playingWords.toTheNext}
        </option>
        <For each={lengths()}>
          {(length) => (
            <option value={length} selected={!isLoose() && length === props.note.length}>
              {playingWords.beats(withFractions(length / props.beat))}
            </option>
          )}
        </For>
      </select>
    </label>
  );
}
