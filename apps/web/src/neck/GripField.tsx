/** The field in which a grip is typed, with what is wrong and what was probably meant. */
import "./GripField.css";
import type { GripError } from "@halflap/theory/grip";
import { parseGrip, printGrip } from "@halflap/theory/grip";
import { createEffect, createMemo, createSignal, on, onCleanup, Show, untrack } from "solid-js";
import { type SlotPlace, useDesk } from "../board/desk.ts";
import { samePlace } from "../board/place.ts";
import { neckWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";

/**
 * Enter places it, and so does going on to another slot or leaving the neck; a text that can't be
 * read stays as it was typed.
 */
export function GripField(props: { readonly slot: NeckSlot }) {
  const desk = useDesk();
  const { typed, type, forget, keep } = createTypedGrip(() => props.slot.place());
  const [error, setError] = createSignal<GripError>();
  let field: HTMLInputElement | undefined;
  const held = () => {
    const grip = props.slot.grip();
    return grip ? printGrip(grip) : "";
  };
  const shown = createMemo(() => typed()?.text ?? held());

  createEffect(
    on([() => props.slot.place(), () => props.slot.grip()], () => {
      if (!samePlace(typed()?.place, props.slot.place())) keep();
      forget();
      setError(undefined);
    }),
  );
  createEffect(() => {
    const start = desk.typed();
    if (start === undefined) return;
    desk.takeTyped();
    type(start);
    field?.focus();
    field?.setSelectionRange(start.length, start.length);
  });

  const place = (text: string) => {
    const reading = parseGrip(text, props.slot.setup());
    setError(reading.ok ? undefined : reading.error);
    if (!reading.ok) {
      field?.focus();
      field?.setSelectionRange(
        reading.error.column,
        reading.error.column + reading.error.read.length,
      );
      return;
    }
    props.slot.placeGrip(reading.value);
    // Stands there until the board has it: the grip before would show in between.
    type(printGrip(reading.value));
  };
  const clear = () => {
    props.slot.clearGrip();
    forget();
    field?.focus();
  };
  // What is pressed in the neck must not move away under the press, as it would if it were kept.
  const onBlur = (event: FocusEvent & { readonly currentTarget: Element }) => {
    const to = event.relatedTarget;
    const panel = event.currentTarget.closest(".neck-panel");
    if (!(to instanceof Node && panel?.contains(to))) keep();
  };
  return (
    <form
      class="grip-field"
      onSubmit={(event) => {
        event.preventDefault();
        place(shown());
      }}
    >
      <label class="grip-field-text">
        <span class="spoken">{neckWords.grip}</span>
        <input
          ref={field}
          class="field"
          value={shown()}
          placeholder={neckWords.typeHint}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={error() !== undefined}
          aria-describedby="grip-problem"
          onInput={(event) => type(event.currentTarget.value)}
          onBlur={onBlur}
        />
      </label>
      <button type="submit" class="button">
        {neckWords.place}
      </button>
      <Show when={props.slot.grip()}>
        <button type="button" class="button bare" onClick={clear}>
          {neckWords.clear}
        </button>
      </Show>
      <div id="grip-problem" class="grip-problem small" aria-live="polite">
        <Show when={error()}>{(problem) => <Problem error={problem()} onMeant={place} />}</Show>
      </div>
    </form>
  );
}

/** What is typed, and the slot in which it was: it is kept there, wherever the neck is by then. */
function createTypedGrip(here: () => SlotPlace) {
  const desk = useDesk();
  const [typed, setTyped] = createSignal<{ readonly text: string; readonly place: SlotPlace }>();
  const keep = () => {
    const mine = typed();
    if (mine === undefined || !desk.mayWrite(mine.place.lane)) return;
    const { lane, slot } = mine.place;
    const reading = parseGrip(mine.text, desk.session.board.lanes[lane].setup);
    const held = desk.gripAt(lane, slot);
    const isNew = reading.ok && (!held || printGrip(held) !== printGrip(reading.value));
    if (isNew) desk.session.lane()?.placeGrip(slot, reading.value);
  };
  onCleanup(() => untrack(keep));
  return {
    typed,
    type: (text: string) => setTyped({ text, place: here() }),
    forget: () => setTyped(undefined),
    keep,
  };
}

function Problem(props: { readonly error: GripError; readonly onMeant: (text: string) => void }) {
  return (
    <p class="problem">
      {neckWords.problem[props.error.kind]}{" "}
      <Show when={props.error.read !== ""}>
        {neckWords.at(props.error.column, props.error.read)}{" "}
      </Show>
      <Show when={props.error.meant}>
        {(meant) => (
          <button type="button" class="button small" onClick={() => props.onMeant(meant())}>
            {neckWords.meant(meant())}
          </button>
        )}
      </Show>
    </p>
  );
}
