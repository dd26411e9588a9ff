/** Ways to undo that a check must catch, each wrong in one place. */
import { ownEdit } from "@halflap/board/documents";
import { makeOwnUndo, type OwnUndo } from "@halflap/board/own-undo";
import * as Y from "yjs";

type Options = NonNullable<ConstructorParameters<typeof Y.UndoManager>[1]>;

/** By what is wrong with each. */
export const wrongUndos: Readonly<Record<string, () => OwnUndo>> = {
  "takes back what came over the network": () =>
    bare({ trackedOrigins: new Set([ownEdit, "network"]) }),
  "writes over what others wrote since": () =>
    bare({ trackedOrigins: new Set([ownEdit]), ignoreRemoteMapChanges: true }),
  "brings back what others removed since": () => bare({ trackedOrigins: new Set([ownEdit]) }),
  "goes on in a lane that was handed over": () => ({
    ...makeOwnUndo(),
    leave: () => undefined,
  }),
};

/** The library's own, over each document by itself. */
function bare(options: Options): OwnUndo {
  const managers = new Map<Y.Doc, Y.UndoManager>();
  const last = (way: "undo" | "redo") => {
    for (const manager of managers.values()) if (manager[way]() !== null) return;
  };
  const leave = (doc: Y.Doc) => {
    managers.get(doc)?.destroy();
    managers.delete(doc);
  };
  return {
    follow: (doc) => {
      const trackedOrigins = new Set(options.trackedOrigins);
      managers.set(doc, new Y.UndoManager(doc, { ...options, trackedOrigins, captureTimeout: 0 }));
    },
    leave,
    undo: () => last("undo"),
    redo: () => last("redo"),
    counts: () => {
      const all = [...managers.values()];
      return {
        done: all.reduce((sum, { undoStack }) => sum + undoStack.length, 0),
        undone: all.reduce((sum, { redoStack }) => sum + redoStack.length, 0),
      };
    },
    close: () => {
      for (const doc of [...managers.keys()]) leave(doc);
    },
  };
}
