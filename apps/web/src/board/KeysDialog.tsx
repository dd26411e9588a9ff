/** How to read the seam, and every key in one list. */
import "./KeysDialog.css";
import { For } from "solid-js";
import { SeamLegend } from "../seam/SeamLegend.tsx";
import { boardWords, keyNames, keyWords, otherKeys } from "../words/board.ts";
import { bindings } from "./keys.ts";
import { Sheet } from "./Sheet.tsx";

/** Reads the same bindings that the board listens to. */
export function KeysDialog(props: { readonly onClose: () => void }) {
  const shown = (keys: readonly string[]) =>
    keys.length > 6 ? ["0 … 9", "x"] : keys.map((key) => keyNames[key] ?? key);
  const rows = [
    ...bindings.map((binding) => ({ keys: shown(binding.keys), does: keyWords[binding.name] })),
    ...otherKeys,
  ];
  return (
    <Sheet title={boardWords.help} onClose={props.onClose}>
      <SeamLegend />
      <h3 class="strong">{boardWords.keys}</h3>
      <dl class="key-list">
        <For each={rows}>
          {(row) => (
            <div>
              <dt>
                <For each={row.keys}>{(key) => <kbd>{key}</kbd>}</For>
              </dt>
              <dd>{row.does}</dd>
            </div>
          )}
        </For>
      </dl>
    </Sheet>
  );
}
