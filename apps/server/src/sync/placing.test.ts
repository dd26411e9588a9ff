/** The walk over an update's parts: whatever a document can take in is placed, and nothing else. */
import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { decodeUpdate } from "./decoded-update.ts";
import { KnownState } from "./known-state.ts";
import { placesAll } from "./placing.ts";

function isPlaced(update: Uint8Array): boolean {
  const parts = decodeUpdate(update);
  return parts !== undefined && placesAll(parts, new KnownState(), () => undefined);
}

function documentOf(client: number): Y.Doc {
  const doc = new Y.Doc();
  doc.clientID = client;
  return doc;
}

function bring(from: Y.Doc, to: Y.Doc): void {
  Y.applyUpdate(to, Y.encodeStateAsUpdate(from, Y.encodeStateVector(to)));
}

test("two who wrote by turns build on one another, which is no circle", () => {
  const [a, b] = [documentOf(20), documentOf(10)];
  for (let turn = 0; turn < 6; turn += 1) {
    const [writer, other] = turn % 2 === 0 ? [a, b] : [b, a];
    writer.getText("words").insert(writer.getText("words").length, `${turn}`);
    bring(writer, other);
  }
  expect(isPlaced(Y.encodeStateAsUpdate(a))).toBe(true);
});

const edit = fc.record({ who: fc.nat(2), place: fc.nat(20), kind: fc.nat(3), with: fc.nat(2) });

test("any whole document can be placed; without one author only where nothing is missing", () => {
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 60 }), (edits) => {
      const docs = [documentOf(3), documentOf(1), documentOf(2)];
      for (const one of edits) {
        const [doc, other] = [docs[one.who], docs[one.with]];
        if (doc === undefined || other === undefined) continue;
        const words = doc.getText("words");
        const at = Math.min(one.place, words.length);
        if (one.kind === 0) words.insert(at, "ab");
        else if (one.kind === 1 && at < words.length) words.delete(at, 1);
        else if (one.kind === 2) doc.getMap("m").set(`k${one.place % 3}`, one.place);
        else bring(doc, other);
      }
      const [first, ...rest] = docs;
      if (first === undefined) return;
      for (const doc of rest) bring(doc, first);
      const whole = Y.encodeStateAsUpdate(first);
      expect(isPlaced(whole)).toBe(true);
      const lacks = Y.diffUpdate(whole, Y.encodeStateVector(new Map([[1, 2 ** 20]])));
      const reader = new Y.Doc();
      Y.applyUpdate(reader, lacks);
      const { pendingStructs, pendingDs } = reader.store;
      expect(isPlaced(lacks)).toBe(pendingStructs === null && pendingDs === null);
    }),
    { numRuns: 300 },
  );
});
