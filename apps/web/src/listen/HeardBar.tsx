/** The bar that sounds, marked on its line, with the last stroke of each lane on its rail. */
import "./HeardBar.css";
import { type Bar, laneIds } from "@halflap/board/board";
import { For, Show } from "solid-js";
import { useListening } from "./create-listening.ts";

/** Nothing while the sounding bar is not among these. For the eye only: the ear has it already. */
export function HeardBar(props: { readonly bars: readonly Bar[] }) {
  const listening = useListening();
  const column = () => props.bars.findIndex((bar) => bar.id === listening.heard()?.bar);
  return (
    <Show when={column() >= 0}>
      <div class="heard-bar" style={{ "--column": column() }} aria-hidden="true">
        <For each={laneIds}>
          {(lane) => (
            <Show when={listening.heard()?.strokes[lane] !== undefined}>
              <span
                class="heard-stroke"
                data-lane={lane}
                style={{ "--at": listening.heard()?.strokes[lane] }}
              />
            </Show>
          )}
        </For>
      </div>
    </Show>
  );
}
