/**
 * Many rows of a document folded into one that says the same, checked before anything is replaced.
 */
import * as Y from "yjs";
import type { RowId, StoredRow } from "../store/log-port.ts";
import { Unreadable } from "./folding-port.ts";

/** A document with more rows than this is folded. */
export const rowsBeforeCompaction = 500;

/**
 * The rows as one update, and the last row that it stands for; undefined when there is nothing to
 * fold. Throws what `foldOf` throws.
 */
export function compactionOf(
  rows: readonly StoredRow[],
): { readonly last: RowId; readonly snapshot: Uint8Array } | undefined {
  const last = rows.at(-1)?.id;
  if (last === undefined || rows.length < 2) return undefined;
  return { last, snapshot: foldOf(rows.map(({ update }) => update)) };
}

/**
 * The updates as one, without what was overwritten. Throws Unreadable when the fold read back is
 * not the same document: same clocks, same deletions, nothing pending, and the same bytes when
 * written out again.
 */
export function foldOf(updates: readonly Uint8Array[]): Uint8Array {
  const whole = documentOf(updates);
  const fold = Y.encodeStateAsUpdate(whole);
  const again = documentOf([fold]);
  const isSame =
    Y.equalSnapshots(Y.snapshot(whole), Y.snapshot(again)) &&
    Buffer.compare(Y.encodeStateAsUpdate(again), fold) === 0;
  if (!isSame) throw new Unreadable("a folded document differs from its rows; the rows are kept");
  return fold;
}

/** The updates replayed. Throws Unreadable when they make no whole document. */
export function documentOf(updates: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc();
  try {
    doc.transact(() => {
      for (const update of updates) Y.applyUpdate(doc, update);
    });
  } catch (fault) {
    throw new Unreadable("a stored update can't be read; the rows are kept", { cause: fault });
  }
  if (doc.store.pendingStructs !== null || doc.store.pendingDs !== null) {
    throw new Unreadable("a stored document lacks what a row builds on; the rows are kept");
  }
  return doc;
}
