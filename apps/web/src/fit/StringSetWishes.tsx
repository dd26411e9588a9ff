/** Which strings may sound: neighbouring sets to press, and any other to type. */
import type { LaneId } from "@halflap/board/board";
import { stringSetsMax } from "@halflap/board/limits";
import type { StringNumber } from "@halflap/theory/tuning";
import { createSignal, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { wishWords } from "../words/wishes.ts";
import { hasSet, neighbouringSets, stringSetChange, typedStringSet } from "./wish-change.ts";

/** None pressed leaves the strings open. */
export function StringSetWishes(props: { readonly lane: LaneId }) {
  const desk = useDesk();
  const wishes = () => desk.session.board.lanes[props.lane].wishes;
  const [typed, setTyped] = createSignal("");
  const [problem, setProblem] = createSignal<string>();
  const others = () => wishes().stringSets.filter((set) => !hasSet(neighbouringSets, set));
  const turn = (set: readonly StringNumber[]) => {
    const isFull = wishes().stringSets.length >= stringSetsMax;
    if (isFull && !hasSet(wishes().stringSets, set)) {
      setProblem(wishWords.setsFull(stringSetsMax));
      return;
    }
    setProblem(undefined);
    desk.session.lane()?.setWishes(stringSetChange(wishes(), set));
  };
  const add = (event: SubmitEvent) => {
    event.preventDefault();
    const set = typedStringSet(typed());
    if (set === undefined) {
      setProblem(wishWords.setsProblem(typed().trim()));
      return;
    }
    setTyped("");
    if (!hasSet(wishes().stringSets, set)) turn(set);
  };
  return (
    <fieldset class="fit-sets">
      <legend class="strong">{wishWords.sets}</legend>
      <div class="fit-toggles">
        <For each={[...neighbouringSets, ...others()]}>
          {(set) => (
            <button
              type="button"
              class="button small"
              aria-pressed={hasSet(wishes().stringSets, set)}
              onClick={() => turn(set)}
            >
              {set.join("-")}
            </button>
          )}
        </For>
      </div>
      <form class="fit-typed" onSubmit={add}>
        <input
          class="field"
          aria-label={wishWords.setsField}
          aria-describedby="fit-sets-hint"
          aria-invalid={problem() !== undefined}
          value={typed()}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <button type="submit" class="button small">
          {wishWords.setsAdd}
        </button>
      </form>
      <p class="soft" id="fit-sets-hint">
        {wishWords.setsHint}
      </p>
      <Show when={problem()}>
        {(words) => (
          <p class="problem" role="alert">
            {words()}
          </p>
        )}
      </Show>
    </fieldset>
  );
}
