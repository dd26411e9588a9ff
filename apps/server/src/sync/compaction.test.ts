/** Folding rows: the fold says the same, and rows that don't add up are kept. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { rowId } from "../store/log-port.ts";
import { compactionOf } from "./compaction.ts";

function rowsOf(doc: Y.Doc, work: () => void) {
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  work();
  return updates.map((update, i) => ({ id: rowId(i + 1), update }));
}

test("a fold reads back as the same document, smaller where values were overwritten", () => {
  const doc = new Y.Doc();
  const map = doc.getMap("m");
  const rows = rowsOf(doc, () => {
    for (let i = 0; i < 600; i += 1) map.set(`k${i % 5}`, { grip: "x-x-3-2-4-x", i });
    map.delete("k2");
  });
  const folded = compactionOf(rows);
  expect(folded?.last).toBe(601);
  const again = new Y.Doc();
  Y.applyUpdate(again, folded?.snapshot ?? new Uint8Array());
  expect(again.getMap("m").toJSON()).toEqual(map.toJSON());
  expect(Y.encodeStateVector(again)).toEqual(Y.encodeStateVector(doc));
  const before = rows.reduce((sum, { update }) => sum + update.length, 0);
  expect(folded?.snapshot.length).toBeLessThan(before / 4);
});

test("rows with a hole are kept", () => {
  const doc = new Y.Doc();
  const rows = rowsOf(doc, () => {
    for (let i = 0; i < 3; i += 1) doc.getMap("m").set(`k${i}`, i);
  });
  expect(() => compactionOf(rows.filter(({ id }) => id !== 2))).toThrow("kept");
});

test("one row is no work", () => {
  const doc = new Y.Doc();
  expect(compactionOf(rowsOf(doc, () => doc.getMap("m").set("a", 1)))).toBeUndefined();
});
