/** A fill on six strings: press where string and beat cross, then type or press the fret. */
import "./TabGrid.css";
import { parseFillText, printFillText } from "@halflap/board/fill-text";
import { fillNotesMax } from "@halflap/board/limits";
import type { Fill, FillNote } from "@halflap/board/playing";
import { highestFret, lowestFret } from "@halflap/theory/tuning";
import { fret, type Ticks, ticks } from "@halflap/theory/units";
import { createMemo, createSignal, For, Index, Show } from "solid-js";
import { makeFretTyping } from "../neck/fret-typing.ts";
import { playingWords } from "../words/playing.ts";
import { beatName, beatSign } from "./beat-name.ts";
import type { Playing } from "./create-playing.ts";
import { noteText } from "./playing-text.ts";
import { TabMark } from "./TabMark.tsx";
import { TabNoteTools } from "./TabNoteTools.tsx";
import * as tab from "./tab-grid.ts";
import { tabStrings } from "./tab-strings.ts";

/** One stop for Tab: arrows walk the crossings, digits give a fret, letters the way. */
export function TabGrid(props: { readonly playing: Playing; readonly fill: Fill }) {
  const [wantedStep, setStep] = createSignal<Ticks>();
  const step = createMemo(() => wantedStep() ?? tab.tabStepOf(props.fill));
  const columns = createMemo(() => tab.columnsOf(props.fill, step()));
  const [chosen, setChosen] = createSignal<tab.Crossing>({ start: ticks(0), string: 2 });
  const at = createMemo((): tab.Crossing => {
    const { start, string } = chosen();
    return {
      start:
        columns()
          .filter((each) => each <= start)
          .at(-1) ?? ticks(0),
      string,
    };
  });
  const isAt = (start: number, string: number) => at().start === start && at().string === string;
  const note = () => tab.noteAt(props.fill.notes, at());
  const range = () => ({
    lowest: lowestFret(props.playing.setup()),
    highest: highestFret(props.playing.setup()),
  });
  const isFull = () => props.fill.notes.length >= fillNotesMax;
  let grid: HTMLDivElement | undefined;

  const change = (notes: readonly FillNote[]) => props.playing.changeFill({ ...props.fill, notes });
  const putFret = (typed: number) => {
    if (!isFull() || note()) change(tab.withFret(props.fill, at(), fret(typed)));
  };
  const walk = (by: number, strings: number) => {
    const column = columns()[columns().indexOf(at().start) + by] ?? at().start;
    const string = tabStrings[tabStrings.indexOf(at().string) + strings] ?? at().string;
    setChosen({ start: column, string });
    grid?.querySelector<HTMLElement>(`[data-crossing="${string}-${column}"]`)?.focus();
  };
  const fretTyping = makeFretTyping();
  const onKey = (event: KeyboardEvent) => {
    const place = `${props.fill.id} ${at().string} ${at().start}`;
    const act = tab.tabKey(event, fretTyping(event, place, range()));
    if (act === undefined) return;
    event.preventDefault();
    const here = note();
    if (act.kind === "walk") walk(act.columns, act.strings);
    else if (act.kind === "fret") putFret(act.fret);
    else if (here === undefined) return;
    else if (act.kind === "way") change(tab.withWay(props.fill, at(), act.way));
    else if (act.kind === "ring") change(tab.withRing(props.fill, at(), !here.letRing));
    else change(tab.without(props.fill, at()));
  };
  const problem = createMemo(() => {
    const stretch = { ...props.fill, beat: ticks(props.playing.beat()) };
    const text = printFillText(props.fill.notes, stretch);
    const read = parseFillText(text, stretch, props.playing.setup());
    return read.ok ? undefined : read.error.words;
  });
  const beatAt = (start: number) => beatName(props.fill.start + start, props.playing.beat());
  return (
    <div class="tab-editor">
      <div class="tab-scroll">
        <div
          ref={grid}
          class="tab-grid"
          role="group"
          aria-label={playingWords.tab}
          style={{ "--tab-columns": columns().length }}
        >
          <div class="tab-row tab-counts" aria-hidden="true">
            <span />
            <Index each={columns()}>
              {(start) => (
                <span class="tab-count">
                  {beatSign(props.fill.start + start(), props.playing.beat())}
                </span>
              )}
            </Index>
          </div>
          <For each={tabStrings}>
            {(string) => (
              <div class="tab-row">
                <span class="tab-string" aria-hidden="true">
                  {string}
                </span>
                <Index each={columns()}>
                  {(start) => {
                    const here = () => tab.noteAt(props.fill.notes, { start: start(), string });
                    const words = () => {
                      const struck = here();
                      return struck ? noteText(struck) : playingWords.silent;
                    };
                    return (
                      <button
                        type="button"
                        class="tab-crossing"
                        data-crossing={`${string}-${start()}`}
                        data-chosen={isAt(start(), string) ? "" : undefined}
                        data-beat={
                          (props.fill.start + start()) % props.playing.beat() === 0 ? "" : undefined
                        }
                        tabindex={isAt(start(), string) ? 0 : -1}
                        aria-label={playingWords.crossing(string, beatAt(start()), words())}
                        onClick={() => setChosen({ start: start(), string })}
                        onFocus={() => setChosen({ start: start(), string })}
                        onKeyDown={onKey}
                      >
                        <Show when={here()}>{(struck) => <TabMark note={struck()} />}</Show>
                      </button>
                    );
                  }}
                </Index>
              </div>
            )}
          </For>
        </div>
      </div>
      <div aria-live="polite" class="small">
        <Show when={isFull()}>{playingWords.fullFill(fillNotesMax)}</Show>
        <Show when={problem()}>{(words) => <p class="problem">{words()}</p>}</Show>
      </div>
      <TabNoteTools
        playing={props.playing}
        fill={props.fill}
        at={at()}
        note={note()}
        step={step()}
        onStep={setStep}
        onFret={putFret}
        onChange={change}
      />
    </div>
  );
}
