/** Recording a take: over which bars, how it goes, and what came of it. */

import { takeMsMax } from "@halflap/board/limits";
import { beatOf } from "@halflap/board/meter";
import { createMemo, createSignal, For, Match, Show, Switch } from "solid-js";
import { useDesk } from "../../board/desk.ts";
import { recordedWords, recordWords, takeWords } from "../../words/takes.ts";
import { barOfNumber, barWithSection, restOfSection } from "../bar-names.ts";
import { useListening } from "../create-listening.ts";
import type { Takes } from "./create-takes.ts";
import { DraftPart } from "./DraftPart.tsx";
import { InputMeter } from "./InputMeter.tsx";

type Ends = { readonly from: number; readonly to: number };

/** One step at a time; what is not its turn is not there. */
export function RecordPart(props: { readonly takes: Takes }) {
  const listening = useListening();
  const recording = () => props.takes.recording;
  const state = () => recording().state();
  const isBusy = () => ["asking", "finishing"].includes(state().kind);
  const draft = () => {
    const now = state();
    return now.kind === "review" ? now.draft : undefined;
  };
  return (
    <div class="take-record">
      <Switch fallback={<Start takes={props.takes} isBusy={isBusy()} />}>
        <Match when={state().kind === "running"}>
          <div class="take-running">
            <InputMeter input={recording().input()} />
            <button type="button" class="button main" onClick={() => listening.stop()}>
              {takeWords.stop}
            </button>
          </div>
        </Match>
        <Match when={draft()} keyed>
          {(now) => <DraftPart draft={now} takes={props.takes} />}
        </Match>
      </Switch>
      <p class="small" classList={{ problem: state().kind === "refused" }}>
        <span role="status">{recordWords(state())}</span>
        {/* Beside what is announced: nobody wants to be told the seconds while they play. */}
        <span>{recordedWords(state())}</span>
      </p>
    </div>
  );
}

/** The bars that go round, or the rest of the section one stands in, unless others are named. */
function Start(props: { readonly takes: Takes; readonly isBusy: boolean }) {
  const desk = useDesk();
  const listening = useListening();
  const { board } = desk.session;
  const [typed, setTyped] = createSignal<Ends>();
  const offered = createMemo((): Ends => {
    const { loop } = listening.wishes();
    const section = board.sections.find(
      ({ id }) => loop?.kind === "section" && id === loop.section,
    );
    const ends = loop?.kind === "bars" ? loop : restOfSection(board, desk.place()?.bar);
    const bars = ends?.kind === "bars" ? ends : undefined;
    const numberOf = (bar: Parameters<typeof barWithSection>[1]) =>
      barWithSection(board, bar)?.bar.number ?? 1;
    const last = section?.bars.at(-1)?.number;
    if (section?.bars[0] && last) return { from: section.bars[0].number, to: last };
    return { from: numberOf(bars?.from), to: numberOf(bars?.to) };
  });
  const ends = () => typed() ?? offered();
  const move = (end: keyof Ends, input: HTMLInputElement) => {
    const number = barOfNumber(board, input.valueAsNumber || ends()[end])?.number ?? 1;
    const [from, to] = end === "from" ? [number, ends().to] : [ends().from, number];
    const crosses = from > to;
    setTyped(crosses ? { from: number, to: number } : { from, to });
    input.value = String(number);
  };
  const seconds = () => {
    const bars = board.sections.flatMap((section) => section.bars);
    const inside = bars.filter(({ number }) => number >= ends().from && number <= ends().to);
    const ticks = inside.reduce((sum, { length }) => sum + length, 0);
    const tempo = board.tempo * listening.wishes().tempoFactor;
    return (ticks / beatOf(board.meter) / tempo) * 60;
  };
  const record = () => {
    const [from, to] = [barOfNumber(board, ends().from), barOfNumber(board, ends().to)];
    if (from && to) void props.takes.recording.start({ from: from.id, to: to.id });
  };
  return (
    <>
      <p class="small soft">{takeWords.about}</p>
      <div class="take-row">
        <For each={["from", "to"] as const}>
          {(end) => (
            <label class="small">
              {end === "from" ? takeWords.fromBar : takeWords.toBar}
              <input
                class="field"
                type="number"
                inputmode="numeric"
                min={1}
                value={ends()[end]}
                onChange={(event) => move(end, event.currentTarget)}
              />
            </label>
          )}
        </For>
        <button
          type="button"
          class="button"
          disabled={props.isBusy || board.sections.length === 0}
          onClick={record}
        >
          {takeWords.record}
        </button>
      </div>
      <Show when={seconds() * 1000 > takeMsMax}>
        <p class="small">{takeWords.tooLong}</p>
      </Show>
    </>
  );
}
