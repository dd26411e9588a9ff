/**
 * Undo and redo of one's own edits only, over several documents, in the order they were made. What
 * others have done since is left alone: a step that would take it back takes back the rest, and one
 * upon which others have built is passed by.
 */
import type * as Y from "yjs";
import { OwnSteps } from "./own-steps.ts";

export type OwnUndo = {
  /** Follows a document's own edits from now on. */
  follow(doc: Y.Doc): void;
  /** Forgets a document and everything that was done in it. */
  leave(doc: Y.Doc): void;
  undo(): void;
  redo(): void;
  /** How many steps can be taken back, and how many of those brought again. */
  counts(): { readonly done: number; readonly undone: number };
  close(): void;
};

/** Nothing followed yet, nothing to undo; `onChange` is told whenever the counts may differ. */
export function makeOwnUndo(onChange: () => void = () => undefined): OwnUndo {
  const followed = new Map<Y.Doc, OwnSteps>();
  // The documents in the order in which each own edit was made, and in which each was taken back.
  let done: Y.Doc[] = [];
  let undone: Y.Doc[] = [];

  const follow = (doc: Y.Doc) => {
    if (followed.has(doc)) return;
    const steps = new OwnSteps(doc, (stack, isRedone) => {
      if (stack === "redo") undone.push(doc);
      else done.push(doc);
      if (stack === "undo" && !isRedone) {
        undone = [];
        for (const other of followed.values()) if (other !== steps) other.forgetUndone();
      }
      onChange();
    });
    followed.set(doc, steps);
  };
  const leave = (doc: Y.Doc) => {
    followed.get(doc)?.close();
    followed.delete(doc);
    done = done.filter((other) => other !== doc);
    undone = undone.filter((other) => other !== doc);
    onChange();
  };
  /** Steps back through the documents until something changed. */
  const step = (stack: Y.Doc[], act: (steps: OwnSteps) => boolean) => {
    for (let doc = stack.pop(); doc !== undefined; doc = stack.pop()) {
      const steps = followed.get(doc);
      if (steps !== undefined && act(steps)) break;
    }
    onChange();
  };
  return {
    follow,
    leave,
    undo: () => step(done, (steps) => steps.undo()),
    redo: () => step(undone, (steps) => steps.redo()),
    counts: () => ({ done: done.length, undone: undone.length }),
    close: () => {
      for (const doc of [...followed.keys()]) leave(doc);
    },
  };
}
