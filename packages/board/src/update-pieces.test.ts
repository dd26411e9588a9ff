/** An update in pieces brings the same as the whole, and each piece can be taken in as it comes. */
import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { piecesOf } from "./update-pieces.ts";

const edit = fc.record({ who: fc.nat(5), kind: fc.nat(4), at: fc.nat(40), meets: fc.boolean() });

/** Authors who write one after another, some of them without having heard of the others. */
function written(edits: readonly { who: number; kind: number; at: number; meets: boolean }[]) {
  const docs = Array.from({ length: 6 }, (_, i) => {
    const doc = new Y.Doc();
    doc.clientID = i + 1;
    return doc;
  });
  for (const [number, { who, kind, at, meets }] of edits.entries()) {
    const doc = docs[who] ?? new Y.Doc();
    if (meets) for (const other of docs) Y.applyUpdate(doc, Y.encodeStateAsUpdate(other));
    const order = doc.getArray("order");
    const words = doc.getText("words");
    const inner = doc.getMap("m").get("list");
    if (kind === 0) order.insert(Math.min(at, order.length), [number, "x"]);
    else if (kind === 1 && order.length > 0) order.delete(at % order.length);
    else if (kind === 2) words.insert(Math.min(at, words.length), `w${number} `);
    else if (kind === 3) doc.getMap("m").set("list", new Y.Array());
    else if (inner instanceof Y.Array) inner.push([number]);
  }
  const [all] = docs;
  if (all === undefined) throw new Error("there are six");
  for (const other of docs) Y.applyUpdate(all, Y.encodeStateAsUpdate(other));
  return { all, first: docs[1] ?? all };
}

test("pieces bring what the whole brings, each can be taken in at once, none is too large", () => {
  let most = 0;
  fc.assert(
    fc.property(
      fc.array(edit, { maxLength: 80, size: "max" }),
      fc.integer({ min: 60, max: 400 }),
      (...made) => {
        const [edits, bytesMax] = made;
        const { all, first } = written(edits);
        const there = new Y.Doc();
        Y.applyUpdate(there, Y.encodeStateAsUpdate(first));
        const update = Y.encodeStateAsUpdate(all, Y.encodeStateVector(there));
        const pieces = piecesOf(update, { bytesMax, authorsMax: 2 }) ?? [];
        most = Math.max(most, pieces.length);
        for (const piece of pieces) {
          expect(piece.length).toBeLessThanOrEqual(bytesMax);
          expect(Y.parseUpdateMeta(piece).from.size).toBeLessThanOrEqual(2);
          Y.applyUpdate(there, piece);
          expect([there.store.pendingStructs, there.store.pendingDs]).toEqual([null, null]);
        }
        expect(Y.equalSnapshots(Y.snapshot(there), Y.snapshot(all))).toBe(true);
        expect(there.getText("words").toString()).toBe(all.getText("words").toString());
      },
    ),
    { numRuns: 300 },
  );
  expect(most).toBeGreaterThan(10);
});

test("what two wrote by turns goes into few pieces", () => {
  const [one, two] = [new Y.Doc(), new Y.Doc()];
  for (let i = 0; i < 200; i += 1) {
    one.getText("words").insert(i, "a");
    Y.applyUpdate(two, Y.encodeStateAsUpdate(one));
    two.getText("words").insert(0, "b");
    Y.applyUpdate(one, Y.encodeStateAsUpdate(two));
  }
  const update = Y.encodeStateAsUpdate(one);
  const pieces = piecesOf(update, { bytesMax: 1_000, authorsMax: 10 }) ?? [];
  expect(pieces.length).toBeLessThan((3 * update.length) / 1_000);
});

test("a single thing that is too large can't be sent in pieces", () => {
  const doc = new Y.Doc();
  doc.getMap("m").set("long", "x".repeat(1_000));
  const update = Y.encodeStateAsUpdate(doc);
  expect(piecesOf(update, { bytesMax: 900, authorsMax: 10 })).toBeUndefined();
});
