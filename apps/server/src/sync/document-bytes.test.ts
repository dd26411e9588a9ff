/** A document as bytes: whatever is asked in whatever order, a holder gets what they lack. */
import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { DocumentBytes } from "./document-bytes.ts";

function stateOf(doc: Y.Doc): unknown {
  expect([doc.store.pendingStructs, doc.store.pendingDs]).toEqual([null, null]);
  const deleted = Buffer.from(Y.encodeSnapshot(Y.snapshot(doc))).toString("hex");
  return [deleted, doc.getText("words").toJSON(), doc.getMap("m").toJSON()];
}

const step = fc.record({
  kind: fc.constantFrom("write", "write", "delete", "set", "catch-up", "whole"),
  place: fc.nat(60),
  who: fc.nat(2),
  length: fc.constantFrom(1, 40, 900),
});

test("holders who catch up at any time hold the document, small or large", () => {
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 150 }), (steps) => {
      const writer = new Y.Doc();
      const bytes = new DocumentBytes([]);
      const sizes: number[] = [];
      writer.on("update", (update: Uint8Array) => {
        bytes.add(update);
        sizes.push(update.length);
      });
      const holders = [new Y.Doc(), new Y.Doc(), new Y.Doc()];
      const catchUp = (doc: Y.Doc) => {
        const has = Y.decodeStateVector(Y.encodeStateVector(doc));
        Y.applyUpdate(doc, bytes.since(has));
        expect(stateOf(doc)).toEqual(stateOf(writer));
      };
      for (const { kind, place, who, length } of steps) {
        const words = writer.getText("words");
        const holder = holders[who] ?? writer;
        if (kind === "write") words.insert(Math.min(place, words.length), "x".repeat(length));
        else if (kind === "delete" && place < words.length) words.delete(place, 1);
        else if (kind === "set") writer.getMap("m").set(`k${place % 5}`, place);
        else if (kind === "whole") Y.applyUpdate(holder, bytes.merged());
        else if (kind === "catch-up") catchUp(holder);
      }
      for (const holder of holders) catchUp(holder);
      const whole = new Y.Doc();
      Y.applyUpdate(whole, bytes.merged());
      expect(stateOf(whole)).toEqual(stateOf(writer));
      expect(bytes.rows).toBe(sizes.length);
      expect(bytes.size).toBeLessThanOrEqual(sizes.reduce((sum, size) => sum + size, 2));
    }),
    { numRuns: 150 },
  );
});

test("who lacks nothing of a large document is answered in a few bytes", () => {
  const writer = new Y.Doc();
  const bytes = new DocumentBytes([]);
  writer.on("update", (update: Uint8Array) => bytes.add(update));
  for (let i = 0; i < 300; i += 1) writer.getMap("m").set(`k${i}`, "x-x-3-2-4-x");
  writer.getMap("m").delete("k7");
  const now = () => Y.decodeStateVector(Y.encodeStateVector(writer));
  expect(bytes.since(new Map()).length).toBeGreaterThan(5000);
  expect(bytes.since(now()).length).toBeLessThan(20);
  const before = now();
  writer.getMap("m").set("k8", "x-3-2-0-1-0");
  expect(bytes.since(before).length).toBeLessThan(60);
  expect(bytes.since(now()).length).toBeLessThan(20);
});
