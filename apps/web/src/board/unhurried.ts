/** A live value that is followed at once where it is seen, and in turn where it is not. */
import { type Accessor, createComputed, createSignal, onCleanup, untrack } from "solid-js";
import { inTurn, notInTurn } from "./in-turn.ts";

/** What `source` says, or has said a moment ago while it is not `isSeen`. */
export function createUnhurried<T>(source: Accessor<T>, isSeen: Accessor<boolean>): Accessor<T> {
  const [shown, setShown] = createSignal(untrack(source));
  const catchUp = () => setShown(() => untrack(source));
  createComputed(() => {
    source();
    if (isSeen()) catchUp();
    else inTurn(catchUp);
  });
  onCleanup(() => notInTurn(catchUp));
  return shown;
}
