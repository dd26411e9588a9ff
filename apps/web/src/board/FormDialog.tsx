/** The dialog in which players put the sections in the order in which they are played. */
import "./FormDialog.css";
import { barsPlayed } from "@halflap/board/bars-played";
import type { SectionId } from "@halflap/board/board";
import { formBarsMax, formEntriesMax, timesMax } from "@halflap/board/limits";
import { createSignal, For, Index, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { mergedForm, type WrittenEntry } from "./merged-form.ts";
import { Sheet } from "./Sheet.tsx";

/** Nothing is changed for the others until it is kept; what they changed meanwhile stands. */
export function FormDialog(props: { readonly onClose: () => void }) {
  const desk = useDesk();
  const form = () =>
    desk.session.board.form.map(({ id, section, times }) => ({ id, section, times }));
  const opened = form();
  const [entries, setEntries] = createSignal<readonly WrittenEntry[]>(opened);
  const isFull = () => entries().length >= formEntriesMax;
  const [isRefused, setRefused] = createSignal(false);
  const isTooLong = () => barsPlayed(entries(), desk.session.board.sections) > formBarsMax;
  const name = (id: SectionId) =>
    desk.session.board.sections.find((section) => section.id === id)?.name ?? "";
  const swap = (index: number, by: 1 | -1) => {
    const next = [...entries()];
    next.splice(index + by, 0, ...next.splice(index, 1));
    setEntries(next);
  };
  const change = (index: number, field: HTMLInputElement) => {
    const times = field.valueAsNumber;
    const isOne = Number.isInteger(times) && times >= 1 && times <= timesMax;
    setRefused(!isOne);
    // What is not kept is not shown either.
    if (!isOne) field.value = String(entries()[index]?.times);
    else setEntries(entries().map((each, at) => (at === index ? { ...each, times } : each)));
  };
  const add = (section: SectionId) => {
    if (!isFull()) setEntries([...entries(), { section, times: 1 }]);
  };
  const keep = () => {
    desk.session.chart.setForm(mergedForm(opened, entries(), form()));
    props.onClose();
  };
  return (
    <Sheet title={boardWords.editingForm} onClose={props.onClose}>
      <ol class="form-entries">
        <Index each={entries()}>
          {(entry, index) => (
            <li>
              <span class="strong">{name(entry().section)}</span>
              <label class="form-times">
                <span aria-hidden="true">×</span>
                <input
                  class="field"
                  type="number"
                  aria-label={boardWords.formTimes(name(entry().section))}
                  min="1"
                  max={timesMax}
                  value={entry().times}
                  onChange={(event) => change(index, event.currentTarget)}
                />
              </label>
              <button
                type="button"
                class="button bare"
                disabled={index === 0}
                aria-label={boardWords.moveEarlier(name(entry().section))}
                onClick={() => swap(index, -1)}
              >
                ↑
              </button>
              <button
                type="button"
                class="button bare"
                disabled={index === entries().length - 1}
                aria-label={boardWords.moveLater(name(entry().section))}
                onClick={() => swap(index, 1)}
              >
                ↓
              </button>
              <button
                type="button"
                class="button bare"
                aria-label={boardWords.removeNamed(name(entry().section))}
                onClick={() => setEntries(entries().filter((_, at) => at !== index))}
              >
                {boardWords.remove}
              </button>
            </li>
          )}
        </Index>
      </ol>
      <Show when={isRefused()}>
        <p class="problem" role="alert">
          {boardWords.formTimesRefused(timesMax)}
        </p>
      </Show>
      <p class="label">{isFull() ? boardWords.formFull(formEntriesMax) : boardWords.formAdd}</p>
      <div class="form-add">
        <For each={desk.session.board.sections}>
          {(section) => (
            <button
              type="button"
              class="button"
              disabled={isFull()}
              onClick={() => add(section.id)}
            >
              + {section.name}
            </button>
          )}
        </For>
      </div>
      <Show when={isTooLong()}>
        <p class="problem" role="alert">
          {boardWords.formTooLong(formBarsMax)}
        </p>
      </Show>
      <div class="sheet-end">
        <button type="button" class="button bare" onClick={() => props.onClose()}>
          {boardWords.cancel}
        </button>
        <button type="button" class="button main" disabled={isTooLong()} onClick={keep}>
          {boardWords.keep}
        </button>
      </div>
    </Sheet>
  );
}
