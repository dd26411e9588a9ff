/** Whether the neck is a sheet from below: BoardView.css turns to one column at the same width. */
import { type Accessor, createSignal, onCleanup } from "solid-js";

/** Follows the window for as long as its owner lives. */
export function createNarrow(): Accessor<boolean> {
  const query = matchMedia("(width < 60rem)");
  const [isNarrow, setNarrow] = createSignal(query.matches);
  const follow = () => setNarrow(query.matches);
  query.addEventListener("change", follow);
  onCleanup(() => query.removeEventListener("change", follow));
  return isNarrow;
}
