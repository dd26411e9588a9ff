/** Fills and lines that are heard in the bar: which there are, and the one that is open. */
import "./FillPart.css";
import { fillsMax } from "@halflap/board/limits";
import { beatOf } from "@halflap/board/meter";
import type { Fill } from "@halflap/board/playing";
import { For, Show } from "solid-js";
import { playedWords } from "../words/played.ts";
import { playingWords } from "../words/playing.ts";
import { beatName, withFractions } from "./beat-name.ts";
import type { Playing } from "./create-playing.ts";
import { FillEditor } from "./FillEditor.tsx";
import { FillText } from "./FillText.tsx";
import { type FillFigure, fillFigure } from "./playing-figure.ts";
import { fillText } from "./playing-text.ts";
import { TabPicture, tabHeight } from "./TabPicture.tsx";

/** On a lane that is not one's own it shows every fill and changes nothing. */
export function FillPart(props: { readonly playing: Playing }) {
  let part: HTMLDivElement | undefined;
  const add = () => {
    props.playing.addFill();
    // Once the board is read again, the keys go on in the new fill.
    queueMicrotask(() => {
      part?.querySelector<HTMLElement>('.tab-crossing[tabindex="0"]')?.focus();
    });
  };
  return (
    <div ref={part} class="playing-part">
      <Show
        when={props.playing.fills().length > 0}
        fallback={<p class="soft">{playingWords.noFills}</p>}
      >
        <Show when={props.playing.mayWrite()} fallback={<Read playing={props.playing} />}>
          <Show when={props.playing.fills().length > 1}>
            <FillList playing={props.playing} />
          </Show>
          <Show when={props.playing.openFill()?.id} keyed>
            {(_id) => (
              <Show when={props.playing.openFill()}>
                {(fill) => (
                  <div class="playing-part">
                    <FillEditor playing={props.playing} fill={fill()} />
                    <FillText playing={props.playing} fill={fill()} />
                    <button
                      type="button"
                      class="button bare fill-gone"
                      onClick={() => props.playing.removeFill(fill().id)}
                    >
                      {playingWords.deleteFill}
                    </button>
                  </div>
                )}
              </Show>
            )}
          </Show>
        </Show>
      </Show>
      <Show when={props.playing.mayWrite()}>
        <Show
          when={props.playing.hasRoomForFill()}
          fallback={<p class="small soft">{playingWords.fillsFull(fillsMax)}</p>}
        >
          <button type="button" class="button fill-add" onClick={add}>
            {playingWords.addFill}
          </button>
        </Show>
      </Show>
    </div>
  );
}

function FillList(props: { readonly playing: Playing }) {
  return (
    <ul class="fill-list" aria-label={playingWords.fills}>
      <For each={props.playing.fills()}>
        {({ fill }) => (
          <li>
            <button
              type="button"
              class="button"
              aria-pressed={props.playing.openFill()?.id === fill.id}
              onClick={() => props.playing.pickFill(fill.id)}
            >
              <FillName playing={props.playing} fill={fill} />
            </button>
          </li>
        )}
      </For>
    </ul>
  );
}

function FillName(props: { readonly playing: Playing; readonly fill: Fill }) {
  const kind = () => playedWords.kinds[props.fill.kind];
  const beat = () => beatOf(props.playing.meter());
  const beats = () => playingWords.beats(withFractions(props.fill.length / beat()));
  return (
    <>
      {props.fill.bar === props.playing.barId()
        ? playingWords.fillWhere(kind(), beatName(props.fill.start, beat()), beats())
        : playingWords.fillFrom(kind(), props.playing.placeOf(props.fill)?.bar.number ?? 0)}
    </>
  );
}

function Read(props: { readonly playing: Playing }) {
  const words = (figure: FillFigure) => fillText(figure, props.playing.beat());
  return (
    <For each={props.playing.fills()}>
      {(figure) => (
        <figure class="fill-read">
          <figcaption class="small">
            <FillName playing={props.playing} fill={figure.fill} />
            {figure.fill.together ? ` · ${playedWords.together}` : ""}
          </figcaption>
          <span class="spoken">{words(figure)}</span>
          <svg height={tabHeight} aria-hidden="true">
            <TabPicture figure={fillFigure(figure.fill)} lane={props.playing.laneId()} />
          </svg>
        </figure>
      )}
    </For>
  );
}
