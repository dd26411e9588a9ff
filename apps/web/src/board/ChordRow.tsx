/** The chord symbols of a line; a player opens a bar's symbols to write them. */
import "./ChordRow.css";
import type { Bar, Section, Slot } from "@halflap/board/board";
import { pretty } from "@halflap/theory/display";
import { romanNumeral } from "@halflap/theory/roman-numeral";
import { For, Show } from "solid-js";
import { TakeSign } from "../listen/takes/TakeSign.tsx";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { type Place, placeId } from "./place.ts";

/** A row of the board's grid, one cell a bar. */
export function ChordRow(props: { readonly section: Section; readonly bars: readonly Bar[] }) {
  return (
    <div class="line-row chord-row" role="row">
      <div class="line-gutter" role="rowheader">
        <span class="spoken">{boardWords.chords}</span>
      </div>
      <For each={props.bars}>{(bar) => <ChordCell bar={bar} />}</For>
    </div>
  );
}

function ChordCell(props: { readonly bar: Bar }) {
  const desk = useDesk();
  const place = (): Place => ({ kind: "chords", bar: props.bar.id });
  const mayWrite = () => desk.session.mayEditChart();
  const open = () => {
    desk.stand(place());
    if (mayWrite()) desk.write(props.bar.id);
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the board listens to the keys of every place
    <div
      class="chord-cell"
      role="gridcell"
      id={placeId(place())}
      tabindex={desk.isHere(place()) ? 0 : -1}
      data-writing={desk.writing() === props.bar.id ? "" : undefined}
      data-may-write={mayWrite() ? "" : undefined}
      onClick={open}
      onFocus={() => desk.stand(place())}
    >
      <span class="spoken">{boardWords.bar(props.bar.number)}: </span>
      <span class="bar-number" aria-hidden="true">
        {props.bar.number}
      </span>
      <TakeSign bar={props.bar} />
      <Show when={props.bar.slots.length === 0}>
        <span class="spoken">{boardWords.nothingWritten}</span>
      </Show>
      <For each={props.bar.slots}>{(slot) => <ChordSymbol slot={slot} />}</For>
    </div>
  );
}

function ChordSymbol(props: { readonly slot: Slot }) {
  const desk = useDesk();
  const numeral = () => {
    const chord = props.slot.chord;
    return chord ? romanNumeral(chord, desk.session.board.key) : undefined;
  };
  return (
    <span class="chord-symbol" style={{ "--beats": props.slot.length }}>
      <span class="chord" data-unread={props.slot.chord ? undefined : ""}>
        {pretty(props.slot.text)}
      </span>
      <Show when={props.slot.chord} fallback={<span class="spoken">{boardWords.unread}</span>}>
        <Show when={numeral()}>{(text) => <span class="numeral">{pretty(text())}</span>}</Show>
      </Show>
    </span>
  );
}
