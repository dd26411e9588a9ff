/** Takes: recording one, those there are, and those on their way to the server. */
import "./TakesPart.css";
import { For, Show } from "solid-js";
import { useDesk } from "../../board/desk.ts";
import { takeWords } from "../../words/takes.ts";
import { useListening } from "../create-listening.ts";
import { createTakes } from "./create-takes.ts";
import { RecordPart } from "./RecordPart.tsx";
import { TakeEntry } from "./TakeEntry.tsx";
import { UnsentEntry } from "./UnsentEntry.tsx";

/** Stays once it was opened: what is recorded or on its way must not end with its drawer. */
export function TakesPart() {
  const desk = useDesk();
  const takes = createTakes(desk, useListening());
  const { board } = desk.session;
  const isEmpty = () => board.takes.length === 0 && takes.sending.unsent().length === 0;
  return (
    <fieldset class="takes">
      <legend class="label">{takeWords.title}</legend>
      <Show when={takes.mayRecord()}>
        <RecordPart takes={takes} />
      </Show>
      <Show when={isEmpty()}>
        <p class="small soft">{takeWords.none}</p>
      </Show>
      <ul class="take-list">
        <For each={board.takes}>{(take) => <TakeEntry take={take} takes={takes} />}</For>
        <For each={takes.sending.unsent().map(({ key }) => key)}>
          {(key) => <UnsentEntry id={key} takes={takes} />}
        </For>
      </ul>
      <p class="small problem" role="status">
        {takes.problem()}
      </p>
    </fieldset>
  );
}
