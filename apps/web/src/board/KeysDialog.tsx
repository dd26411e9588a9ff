/** How to read the seam, and every key in one list. */
import "./KeysDialog.css";
import { createSignal, For, Show } from "solid-js";
import { SeamLegend } from "../seam/SeamLegend.tsx";
import { boardWords, keyNames, keyWords, otherKeys } from "../words/board.ts";
import { forgetKeys } from "./chosen-keys.ts";
import { type Binding, bindings, chooseKey, isChangeable, keyOf } from "./keys.ts";
import { Sheet } from "./Sheet.tsx";

/** Reads the same bindings that the board listens to; single keys can be changed. */
export function KeysDialog(props: { readonly onClose: () => void }) {
  const shown = (keys: readonly string[]) =>
    keys.length > 6 ? ["0 … 9", "x"] : keys.map((key) => keyNames[key] ?? key);
  return (
    <Sheet title={boardWords.help} onClose={props.onClose}>
      <SeamLegend />
      <h3 class="strong">{boardWords.keys}</h3>
      <p class="small soft">{boardWords.keysHint}</p>
      <dl class="key-list">
        <For each={bindings}>
          {(binding) => (
            <Show
              when={isChangeable(binding)}
              fallback={<KeyRow keys={shown(binding.keys)} does={keyWords[binding.name]} />}
            >
              <KeyField binding={binding} />
            </Show>
          )}
        </For>
        <For each={otherKeys}>{(row) => <KeyRow keys={row.keys} does={row.does} />}</For>
      </dl>
      <div class="sheet-end">
        <button type="button" class="button" onClick={forgetKeys}>
          {boardWords.keysAsTheyWere}
        </button>
      </div>
    </Sheet>
  );
}

function KeyRow(props: { readonly keys: readonly string[]; readonly does: string }) {
  return (
    <div>
      <dt>
        <For each={props.keys}>{(key) => <kbd>{key}</kbd>}</For>
      </dt>
      <dd>{props.does}</dd>
    </div>
  );
}

/** A key that is refused is not shown as kept. */
function KeyField(props: { readonly binding: Binding }) {
  const [problem, setProblem] = createSignal<string>();
  const shown = () => {
    const key = keyOf(props.binding.name) ?? "";
    return keyNames[key] ?? key;
  };
  const choose = (field: HTMLInputElement) => {
    const named = Object.keys(keyNames).find((key) => keyNames[key] === field.value);
    const typed = named ?? (field.value.trim() || field.value);
    const taken = typed.length <= 1 ? chooseKey(props.binding.name, typed) : undefined;
    if (typed.length > 1) setProblem(boardWords.keyNotOne);
    else setProblem(taken && boardWords.keyTaken(keyNames[typed] ?? typed, keyWords[taken]));
    field.value = shown();
  };
  return (
    <div>
      <dt>
        <input
          class="field key-field"
          aria-label={boardWords.keyFor(keyWords[props.binding.name])}
          value={shown()}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          onChange={(event) => choose(event.currentTarget)}
        />
      </dt>
      <dd>
        {keyWords[props.binding.name]}
        <Show when={problem()}>
          <p class="problem small" role="alert">
            {problem()}
          </p>
        </Show>
      </dd>
    </div>
  );
}
