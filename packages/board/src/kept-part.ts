/** A part of what is read from documents, kept until one of them changes. */
import type * as Y from "yjs";
import { share } from "./share.ts";

/**
 * The same as `read`, which looks at nothing but `documents`: asked again only after a change, and
 * then what says the same as before stays the same object.
 */
export function keptPart<T>(documents: readonly Y.Doc[], read: () => T): () => T {
  const states = documents.map(stateOf);
  let kept: { readonly part: T; readonly at: readonly number[] } | undefined;
  return () => {
    const at = states.map(({ changes }) => changes);
    const isCurrent = kept?.at.every((count, i) => count === at[i]) ?? false;
    if (kept !== undefined && isCurrent && states.every(({ open }) => open === 0)) return kept.part;
    const part = share(kept?.part, read());
    kept = { part, at };
    return part;
  };
}

/** How many transactions a document has seen, and how many are in the middle of it. */
type State = { changes: number; open: number };

/** One a document, however many read it: what listens goes when the document goes. */
const states = new WeakMap<Y.Doc, State>();

function stateOf(doc: Y.Doc): State {
  const known = states.get(doc);
  if (known !== undefined) return known;
  const state = { changes: 0, open: doc._transaction === null ? 0 : 1 };
  states.set(doc, state);
  doc.on("beforeTransaction", () => {
    state.changes += 1;
    state.open += 1;
  });
  doc.on("afterTransaction", () => {
    state.changes += 1;
    state.open = Math.max(0, state.open - 1);
  });
  return state;
}
