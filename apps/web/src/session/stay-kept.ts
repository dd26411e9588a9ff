/**
 * Asks the browser not to throw away what it keeps of a board when it runs short of room: with the
 * first own edit, when there is something to lose.
 */
import type { BoardDocuments } from "@halflap/board/documents";
import { createEffect, onCleanup } from "solid-js";
import type * as Y from "yjs";

/** Follows the documents as long as the reactive owner lives; asks once, and takes any answer. */
export function createStayKept(documents: () => BoardDocuments): void {
  let isAsked = false;
  createEffect(() => {
    for (const doc of Object.values(documents())) {
      const onUpdate = (_bytes: Uint8Array, _origin: unknown, _doc: Y.Doc, made: Y.Transaction) => {
        if (isAsked || !made.local) return;
        isAsked = true;
        askToStay();
      };
      doc.on("update", onUpdate);
      onCleanup(() => doc.off("update", onUpdate));
    }
  });
}

/** Browsers that can't be asked, and those that say no, keep it as long as they have room. */
function askToStay(): void {
  if (navigator.storage?.persist === undefined) return;
  navigator.storage.persist().catch(() => undefined);
}
