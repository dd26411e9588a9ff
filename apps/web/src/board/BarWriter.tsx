/**
 * The strip in which a player writes the chords of a bar, moves the bar, adds one or takes it
 * away.
 */
import "./BarWriter.css";
import type { Bar, Meter, Section } from "@halflap/board/board";
import { printBarText } from "@halflap/board/one-bar";
import { createSignal, onCleanup, onMount, Show, untrack } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";

/**
 * Shows what stands in the bar until something is typed. What was typed and neither kept nor given
 * up is there again; where the bar was changed meanwhile it is kept on the second asking.
 */
export function BarWriter(props: { readonly section: Section; readonly bar: Bar }) {
  const desk = useDesk();
  const bar = untrack(() => props.bar.id);
  const held = () => barText(props.bar, desk.session.board.meter);
  const [typed, setTyped] = createSignal(desk.typedChords.get(bar));
  const [problem, setProblem] = createSignal<string>();
  const [warnedOf, setWarnedOf] = createSignal<string>();
  const overtaking = () => (typed() && typed()?.from !== held() ? held() : undefined);
  const takeField = createWriterKeys(() => typed() !== undefined);
  const type = (text: string) => {
    const next = { text, from: typed()?.from ?? held() };
    setTyped(next);
    desk.typedChords.set(bar, next);
  };
  const close = () => {
    desk.typedChords.delete(bar);
    desk.write(undefined);
    desk.goTo({ kind: "chords", bar });
  };
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    const mine = typed();
    const theirs = overtaking();
    if (theirs !== undefined && warnedOf() !== theirs) return setWarnedOf(theirs);
    const refused = mine && desk.session.chart.writeBar(props.bar, mine.text);
    setProblem(refused?.problem);
    if (!refused) close();
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    event.preventDefault(); // it closes nothing else
    close();
  };
  return (
    <form class="bar-writer" onSubmit={keep} onKeyDown={onKey}>
      <label class="bar-writer-field">
        <span class="label small">{boardWords.writeBar(props.bar.number)}</span>
        <input
          ref={takeField}
          class="field"
          value={typed()?.text ?? held()}
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
      <WriterWords
        problem={problem()}
        overtaking={overtaking()}
        isWarned={warnedOf() === overtaking()}
      />
      <BarTools section={props.section} bar={props.bar} onGone={() => desk.write(undefined)} />
    </form>
  );
}

function WriterWords(props: {
  readonly problem: string | undefined;
  /** What stands in the bar by now, where it is not what was there when typing began. */
  readonly overtaking: string | undefined;
  readonly isWarned: boolean;
}) {
  const overtaken = () => {
    if (props.overtaking === undefined) return undefined;
    const now = boardWords.overtaken(props.overtaking || boardWords.nothingWritten);
    return props.isWarned ? `${now} ${boardWords.keepOver}` : now;
  };
  const trouble = () => props.problem ?? overtaken();
  return (
    <p
      id="bar-writer-words"
      class="bar-writer-words small"
      role={trouble() === undefined ? undefined : "alert"}
    >
      <Show when={trouble()} fallback={<span class="soft">{boardWords.writeHint}</span>}>
        <span class="problem">{trouble()}</span>
      </Show>
    </p>
  );
}

/** A ref for the field: takes the keys where it should have them, and leaves word when it goes. */
function createWriterKeys(isTyped: () => boolean): (field: HTMLInputElement) => void {
  const desk = useDesk();
  let field: HTMLInputElement | undefined;
  onMount(() => {
    const keys = desk.takeWriterKeys();
    if (keys === "asked") {
      field?.focus();
      // Selected, what was typed would be gone with the next key.
      if (!isTyped()) field?.select();
    } else if (keys && document.activeElement === document.body) {
      field?.focus({ preventScroll: true });
      field?.setSelectionRange(keys.start, keys.end);
    }
  });
  onCleanup(() => {
    const hadKeys = field !== undefined && document.activeElement === field;
    const { selectionStart: start, selectionEnd: end } = field ?? {};
    desk.leaveWriter(hadKeys ? { start: start ?? 0, end: end ?? 0 } : undefined);
  });
  return (element) => {
    field = element;
  };
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
