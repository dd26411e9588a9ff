/**
 * Many rows of a document folded into one that says the same, checked before anything is replaced.
 */
import * as Y from "yjs";
import type { RowId, StoredRow } from "../store/log-port.ts";

/** A document with more rows than this is folded. */
export const rowsBeforeCompaction = 500;

/**
 * The rows as one update, and the last row that it stands for; undefined when there is nothing to
 * fold. Throws when the fold read back is not the same document: same clocks, same deletions,
 * nothing pending, and the same bytes when written out again.
 */
export function compactionOf(
  rows: readonly StoredRow[],
): { readonly last: RowId; readonly snapshot: Uint8Array } | undefined {
  const last = rows.at(-1)?.id;
  if (last === undefined || rows.length < 2) return undefined;
  const whole = documentOf(rows.map(({ update }) => update));
  const snapshot = Y.encodeStateAsUpdate(whole);
  const again = documentOf([snapshot]);
  const isSame =
    Y.equalSnapshots(Y.snapshot(whole), Y.snapshot(again)) &&
    Buffer.compare(Y.encodeStateAsUpdate(again), snapshot) === 0;
  if (!isSame) throw new Error("a compacted document differs from its rows; the rows are kept");
  return { last, snapshot };
}

function documentOf(updates: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc();
  doc.transact(() => {
    for (const update of updates) Y.applyUpdate(doc, update);
  });
  if (doc.store.pendingStructs !== null || doc.store.pendingDs !== null) {
    throw new Error("a stored document has parts that can't take their place; the rows are kept");
  }
  return doc;
}
