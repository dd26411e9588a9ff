/**
 * Undo and redo of one's own edits only, over the chart and the own lane, in the order they were
 * made.
 */
import { ownEdit } from "@halflap/board/documents";
import { createSignal } from "solid-js";
import * as Y from "yjs";

export type OwnUndo = {
  /** Follows a document's own edits from now on. */
  follow(doc: Y.Doc): void;
  /** Forgets a document and everything that was done in it. */
  leave(doc: Y.Doc): void;
  undo(): void;
  redo(): void;
  readonly canUndo: () => boolean;
  readonly canRedo: () => boolean;
  close(): void;
};

type StackItem = { readonly stackItem: object; readonly type: "undo" | "redo" };

/** Nothing followed yet, nothing to undo. */
export function makeOwnUndo(): OwnUndo {
  const managers = new Map<Y.Doc, Y.UndoManager>();
  // The documents in the order in which each own edit was made, and in which each was taken back.
  let done: Y.Doc[] = [];
  let undone: Y.Doc[] = [];
  const [counts, setCounts] = createSignal({ done: 0, undone: 0 });
  const note = () => setCounts({ done: done.length, undone: undone.length });

  const follow = (doc: Y.Doc) => {
    if (managers.has(doc)) return;
    const manager = new Y.UndoManager(doc, {
      trackedOrigins: new Set([ownEdit]),
      captureTimeout: 0, // an edit is a step, however quickly the next one follows
    });
    manager.on("stack-item-added", ({ type }: StackItem) => {
      if (type === "redo") undone.push(doc);
      else done.push(doc);
      if (type === "undo" && !manager.redoing) {
        undone = [];
        for (const other of managers.values()) if (other !== manager) other.clear(false, true);
      }
      note();
    });
    managers.set(doc, manager);
  };
  const leave = (doc: Y.Doc) => {
    managers.get(doc)?.destroy();
    managers.delete(doc);
    done = done.filter((other) => other !== doc);
    undone = undone.filter((other) => other !== doc);
    note();
  };
  /**
   * Steps back through the documents until something changed: a step others overtook changes
   * nothing.
   */
  const step = (stack: Y.Doc[], act: (manager: Y.UndoManager) => unknown) => {
    for (let doc = stack.pop(); doc !== undefined; doc = stack.pop()) {
      const manager = managers.get(doc);
      if (manager !== undefined && act(manager) !== null) break;
    }
    note();
  };
  return {
    follow,
    leave,
    undo: () => step(done, (manager) => manager.undo()),
    redo: () => step(undone, (manager) => manager.redo()),
    canUndo: () => counts().done > 0,
    canRedo: () => counts().undone > 0,
    close: () => {
      for (const doc of [...managers.keys()]) leave(doc);
    },
  };
}
