/** Adds a section at the end of the chart. */
import { createSignal, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";

/** A button that turns into a field for the name. */
export function SectionAdder() {
  const desk = useDesk();
  const [name, setName] = createSignal<string>();
  const add = (event: SubmitEvent) => {
    event.preventDefault();
    const given = name()?.trim() || boardWords.newSection;
    const { chart, board } = desk.session;
    const section = chart.addSection(given, board.sections.at(-1)?.id);
    setName(undefined);
    desk.write(chart.addBar(section, 0, ""));
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    event.preventDefault(); // it closes nothing else
    setName(undefined);
  };
  return (
    <Show
      when={name() !== undefined}
      fallback={
        <button type="button" class="button" onClick={() => setName("")}>
          {boardWords.addSection}
        </button>
      }
    >
      <form class="section-tools" onSubmit={add} onKeyDown={onKey}>
        <label class="section-name-field">
          <span class="spoken">{boardWords.sectionName}</span>
          <input
            ref={(field) => queueMicrotask(() => field.focus())}
            class="field"
            placeholder={boardWords.newSection}
            value={name() ?? ""}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="button main">
          {boardWords.add}
        </button>
        <button type="button" class="button bare" onClick={() => setName(undefined)}>
          {boardWords.cancel}
        </button>
      </form>
    </Show>
  );
}
