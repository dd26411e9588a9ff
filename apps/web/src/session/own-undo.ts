/** Undo and redo of one's own edits, with what a button wants to know of them as signals. */
import { makeOwnUndo as makeUndo, type OwnUndo as Undo } from "@halflap/board/own-undo";
import { createSignal } from "solid-js";

export type OwnUndo = Omit<Undo, "counts"> & {
  readonly canUndo: () => boolean;
  readonly canRedo: () => boolean;
};

/** Nothing followed yet, nothing to undo. */
export function makeOwnUndo(): OwnUndo {
  const [counts, setCounts] = createSignal({ done: 0, undone: 0 });
  const undo = makeUndo(() => setCounts(undo.counts()));
  return {
    ...undo,
    canUndo: () => counts().done > 0,
    canRedo: () => counts().undone > 0,
  };
}
