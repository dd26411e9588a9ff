/** What a page deletes by itself is told apart from what somebody deleted. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { decodeUpdate } from "./decoded-update.ts";
import { DocumentBytes } from "./document-bytes.ts";
import { builtBytesMax, builtEveryMs, SettledDeletions } from "./settled-deletions.ts";

/** Two pages that set one key before they heard of one another, and a third that heard both. */
function atOnce(value = "x") {
  const [one, two, hearer] = [new Y.Doc(), new Y.Doc(), new Y.Doc()];
  one.getMap("m").set("key", `${value}1`);
  two.getMap("m").set("key", `${value}2`);
  const updates = [one, two].map((doc) => Y.encodeStateAsUpdate(doc));
  for (const update of updates) Y.applyUpdate(hearer, update);
  return { hearer, bytes: new DocumentBytes(updates) };
}

const deletionsOf = (doc: Y.Doc) => decodeUpdate(Y.encodeStateAsUpdate(doc))?.deletions ?? [];

test("the value that lost is deleted by nobody, any other by somebody", () => {
  const { hearer, bytes } = atOnce();
  const settled = new SettledDeletions();
  expect(deletionsOf(hearer)).toHaveLength(1);
  expect(settled.covers(deletionsOf(hearer), bytes, 0)).toBe(true);
  hearer.getMap("m").delete("key");
  expect(settled.covers(deletionsOf(hearer), bytes, builtEveryMs)).toBe(false);
});

test("whoever asks and asks has a document built once in a while only", () => {
  const { hearer, bytes } = atOnce();
  const settled = new SettledDeletions();
  expect(settled.covers(deletionsOf(hearer), new DocumentBytes([]), 0)).toBe(false);
  expect(settled.covers(deletionsOf(hearer), bytes, builtEveryMs - 1)).toBe(false);
  expect(settled.covers(deletionsOf(hearer), bytes, builtEveryMs)).toBe(true);
  expect(settled.covers(deletionsOf(hearer), new DocumentBytes([]), builtEveryMs)).toBe(true);
});

test("a document that takes long to build is not built", () => {
  const { hearer, bytes } = atOnce("x".repeat(builtBytesMax));
  expect(new SettledDeletions().covers(deletionsOf(hearer), bytes, 0)).toBe(false);
});
