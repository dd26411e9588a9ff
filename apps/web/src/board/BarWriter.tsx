/**
 * The strip in which a player writes the chords of a bar, moves the bar, adds one or takes it
 * away.
 */
import "./BarWriter.css";
import type { Bar, Meter, Section } from "@halflap/board/board";
import { printBarText } from "@halflap/board/one-bar";
import { createSignal, onMount, Show, untrack } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";

/** Opens with what was typed and neither kept nor given up, else with what stands in the bar. */
export function BarWriter(props: { readonly section: Section; readonly bar: Bar }) {
  const desk = useDesk();
  const bar = untrack(() => props.bar.id);
  const typed = desk.typedChords.get(bar);
  const [text, setText] = createSignal(
    typed ?? untrack(() => barText(props.bar, desk.session.board.meter)),
  );
  const [problem, setProblem] = createSignal<string>();
  let field: HTMLInputElement | undefined;
  onMount(() => {
    field?.focus();
    // Selected, what was typed would be gone with the next key.
    if (typed === undefined) field?.select();
  });
  const type = (next: string) => {
    setText(next);
    desk.typedChords.set(bar, next);
  };
  const close = () => {
    desk.typedChords.delete(bar);
    desk.write(undefined);
    desk.goTo({ kind: "chords", bar });
  };
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    const refused = desk.session.chart.writeBar(props.bar, text());
    setProblem(refused?.problem);
    if (!refused) close();
  };
  return (
    <form
      class="bar-writer"
      onSubmit={keep}
      onKeyDown={(event) => event.key === "Escape" && close()}
    >
      <label class="bar-writer-field">
        <span class="label small">{boardWords.writeBar(props.bar.number)}</span>
        <input
          ref={field}
          class="field"
          value={text()}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={problem() !== undefined}
          aria-describedby="bar-writer-words"
          onInput={(event) => type(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button main">
        {boardWords.keep}
      </button>
      <button type="button" class="button bare" onClick={close}>
        {boardWords.cancel}
      </button>
      <p
        id="bar-writer-words"
        class="bar-writer-words small"
        role={problem() ? "alert" : undefined}
      >
        <Show when={problem()} fallback={<span class="soft">{boardWords.writeHint}</span>}>
          <span class="problem">{problem()}</span>
        </Show>
      </p>
      <BarTools section={props.section} bar={props.bar} onGone={() => desk.write(undefined)} />
    </form>
  );
}

function BarTools(props: {
  readonly section: Section;
  readonly bar: Bar;
  readonly onGone: () => void;
}) {
  const desk = useDesk();
  const index = () => props.section.bars.findIndex((bar) => bar.id === props.bar.id);
  const name = () => boardWords.bar(props.bar.number);
  const move = (by: 1 | -1) =>
    desk.session.chart.moveBar(props.bar.id, props.section.id, index() + by);
  const add = () => {
    const { chart } = desk.session;
    desk.write(chart.addBar(props.section.id, index() + 1, ""));
  };
  const remove = () => {
    const { bars } = props.section;
    const beside = bars[index() + 1] ?? bars[index() - 1];
    props.onGone();
    desk.session.chart.removeBar(props.bar.id);
    if (beside) desk.goTo({ kind: "chords", bar: beside.id });
  };
  return (
    <div class="bar-tools">
      <button
        type="button"
        class="button bare small"
        disabled={index() <= 0}
        aria-label={boardWords.moveEarlier(name())}
        onClick={() => move(-1)}
      >
        ← {boardWords.earlier}
      </button>
      <button
        type="button"
        class="button bare small"
        disabled={index() >= props.section.bars.length - 1}
        aria-label={boardWords.moveLater(name())}
        onClick={() => move(1)}
      >
        {boardWords.later} →
      </button>
      <button type="button" class="button bare small" onClick={add}>
        {boardWords.addBarAfter}
      </button>
      <button
        type="button"
        class="button bare small"
        aria-label={boardWords.removeNamed(name())}
        onClick={remove}
      >
        {boardWords.remove}
      </button>
    </div>
  );
}

/** A bar without chords opens with an empty field, not with a dot. */
function barText(bar: Bar, meter: Meter): string {
  return bar.slots.length === 0 ? "" : printBarText(bar, meter);
}
