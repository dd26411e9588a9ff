/** What holds for the bar as a whole: rests, loudness, mutes, a text, and what the band means. */
import { type BarAim, barAims } from "@halflap/board/board";
import { markMax } from "@halflap/board/limits";
import { dynamics } from "@halflap/board/playing";
import { createMemo, For, Show } from "solid-js";
import { Choice } from "../app/Choice.tsx";
import { useDesk } from "../board/desk.ts";
import { playedWords } from "../words/played.ts";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";
import { PassList } from "./PassList.tsx";
import { passNotesOf } from "./playing-text.ts";

const loudness = ["none", ...dynamics] as const;

/** On a lane that is not one's own it shows what is marked; aims belong to the chart. */
export function BarPart(props: { readonly playing: Playing }) {
  return (
    <div class="playing-part">
      <Show when={props.playing.mayWrite()} fallback={<Read playing={props.playing} />}>
        <Marks playing={props.playing} />
      </Show>
      <Aims playing={props.playing} />
      <Show when={props.playing.mayWrite() && props.playing.passes().length > 1}>
        <PassList playing={props.playing} />
      </Show>
    </div>
  );
}

function Marks(props: { readonly playing: Playing }) {
  const bar = () => props.playing.barId();
  const lane = () => props.playing.lane();
  const edit = props.playing.edit;
  const keepMark = (field: HTMLInputElement) => {
    const text = field.value.replace(/\s+/g, " ").trim();
    field.value = text;
    if (text !== (lane().marks.get(bar()) ?? "")) edit([{ kind: "mark", bar: bar(), text }]);
  };
  return (
    <div class="playing-group">
      <div class="playing-row">
        <button
          type="button"
          class="button"
          aria-pressed={lane().layOuts.has(bar())}
          onClick={() => edit([{ kind: "lay-out", bar: bar(), rest: !lane().layOuts.has(bar()) }])}
        >
          {playingWords.layOut}
        </button>
        <button
          type="button"
          class="button"
          aria-pressed={lane().palmMutes.has(bar())}
          onClick={() =>
            edit([{ kind: "palm-mute", bar: bar(), on: !lane().palmMutes.has(bar()) }])
          }
        >
          {playingWords.barPalmMute}
        </button>
        <button
          type="button"
          class="button"
          aria-pressed={lane().letRings.has(bar())}
          onClick={() => edit([{ kind: "let-ring", bar: bar(), on: !lane().letRings.has(bar()) }])}
        >
          {playingWords.barLetRing}
        </button>
      </div>
      <Choice
        label={playingWords.dynamic}
        options={loudness}
        words={playingWords.dynamics}
        chosen={lane().dynamics.get(bar()) ?? "none"}
        onChoose={(chosen) => {
          const dynamic = chosen === "none" ? undefined : chosen;
          edit([{ kind: "dynamic", bar: bar(), dynamic }]);
        }}
      />
      <label>
        <span class="label small">{playingWords.mark}</span>
        <input
          class="field"
          maxlength={markMax}
          placeholder={playingWords.markHint}
          value={lane().marks.get(bar()) ?? ""}
          onChange={(event) => keepMark(event.currentTarget)}
        />
      </label>
    </div>
  );
}

/** What the band means the bar to be, so that nobody takes it for an accident. */
function Aims(props: { readonly playing: Playing }) {
  const desk = useDesk();
  const aims = () => desk.session.board.aims.get(props.playing.barId()) ?? [];
  const toggle = (aim: BarAim) => {
    const next = barAims.filter((each) => (each === aim) !== aims().includes(each));
    desk.session.chart.setAims(props.playing.barId(), next);
  };
  return (
    <Show when={desk.session.mayEditChart()}>
      <div class="playing-group" role="group" aria-labelledby="bar-aims">
        <span id="bar-aims" class="label">
          {playingWords.aimsLabel}
        </span>
        <div class="playing-row">
          <For each={barAims}>
            {(aim) => (
              <button
                type="button"
                class="button"
                aria-pressed={aims().includes(aim)}
                onClick={() => toggle(aim)}
              >
                {playedWords.aims[aim]}
              </button>
            )}
          </For>
        </div>
        <p class="small soft">{playingWords.aimsHint}</p>
      </div>
    </Show>
  );
}

function Read(props: { readonly playing: Playing }) {
  const facts = createMemo(() => {
    const [lane, bar] = [props.playing.lane(), props.playing.barId()];
    const dynamic = lane.dynamics.get(bar);
    const mark = lane.marks.get(bar);
    return [
      ...(lane.layOuts.has(bar) ? [playedWords.spokenRest] : []),
      ...(dynamic ? [playedWords.spokenDynamic(dynamic)] : []),
      ...(lane.palmMutes.has(bar) ? [playedWords.palmMute] : []),
      ...(lane.letRings.has(bar) ? [playedWords.letRing] : []),
      ...(mark ? [`“${mark}”`] : []),
      ...passNotesOf(lane, props.playing.passes()),
    ];
  });
  return (
    <Show when={facts().length > 0} fallback={<p class="soft">{playingWords.nothingMarked}</p>}>
      <ul class="playing-group">
        <For each={facts()}>{(fact) => <li>{fact}</li>}</For>
      </ul>
    </Show>
  );
}
