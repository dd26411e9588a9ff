/** Renaming, moving and removing a section, and whose chords it plays. */
import type { Section } from "@halflap/board/board";
import { createSignal, For, onMount, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { lendersOf } from "./borrowing.ts";
import { useDesk } from "./desk.ts";

/** Removing keeps the bars aside, so that they can be brought back. */
export function SectionTools(props: {
  readonly section: Section;
  readonly index: number;
  readonly onDone: () => void;
}) {
  const desk = useDesk();
  const [typed, setTyped] = createSignal<{ readonly name: string; readonly from: string }>();
  let field: HTMLInputElement | undefined;
  onMount(() => field?.select());
  const last = () => desk.session.board.sections.length - 1;
  const move = (by: 1 | -1) => desk.session.chart.moveSection(props.section.id, props.index + by);
  const type = (name: string) => setTyped({ name, from: typed()?.from ?? props.section.name });
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    const name = typed()?.name.trim() ?? "";
    // Left as it was, it is whatever somebody else calls it by now.
    if (name !== "" && name !== typed()?.from) {
      desk.session.chart.renameSection(props.section.id, name);
    }
    props.onDone();
  };
  return (
    <form class="section-tools" onSubmit={keep}>
      <label class="section-name-field">
        <span class="spoken">{boardWords.sectionName}</span>
        <input
          ref={field}
          class="field"
          value={typed()?.name ?? props.section.name}
          onInput={(event) => type(event.currentTarget.value)}
        />
      </label>
      <BorrowField section={props.section} />
      <button type="submit" class="button">
        {boardWords.keep}
      </button>
      <button
        type="button"
        class="button bare"
        disabled={props.index <= 0}
        aria-label={boardWords.moveEarlier(props.section.name)}
        onClick={() => move(-1)}
      >
        ↑ {boardWords.earlier}
      </button>
      <button
        type="button"
        class="button bare"
        disabled={props.index >= last()}
        aria-label={boardWords.moveLater(props.section.name)}
        onClick={() => move(1)}
      >
        ↓ {boardWords.later}
      </button>
      <button
        type="button"
        class="button bare"
        aria-label={boardWords.removeNamed(props.section.name)}
        onClick={() => desk.session.chart.removeSection(props.section.id)}
      >
        {boardWords.remove}
      </button>
    </form>
  );
}

/** Nothing where there is no other section to borrow from. */
function BorrowField(props: { readonly section: Section }) {
  const desk = useDesk();
  const lenders = () => lendersOf(desk.session.board.sections, props.section.id);
  const borrow = (id: string) => {
    const from = lenders().find((each) => each.id === id)?.id;
    desk.session.chart.borrowSection(props.section.id, from);
  };
  return (
    <Show when={lenders().length > 0}>
      <label class="section-borrow">
        <span class="label small">{boardWords.chords}</span>
        <select
          class="field"
          value={props.section.borrows ?? ""}
          onChange={(event) => borrow(event.currentTarget.value)}
        >
          <option value="">{boardWords.ownChords}</option>
          <For each={lenders()}>
            {(lender) => (
              <option value={lender.id} selected={lender.id === props.section.borrows}>
                {boardWords.chordsOf(lender.name)}
              </option>
            )}
          </For>
        </select>
      </label>
    </Show>
  );
}
