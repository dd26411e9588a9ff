/** Undo over two documents, and whose edits it leaves alone. */
import { editOwn } from "@halflap/board/documents";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { makeOwnUndo } from "./own-undo.ts";

function open() {
  const [chart, lane] = [new Y.Doc(), new Y.Doc()];
  const undo = makeOwnUndo();
  undo.follow(chart);
  undo.follow(lane);
  const set = (doc: Y.Doc, name: string, value: string) =>
    editOwn(doc, () => doc.getMap("m").set(name, value));
  const get = (doc: Y.Doc, name: string) => doc.getMap("m").get(name);
  return { chart, lane, undo, set, get };
}

test("undo goes back through chart and lane in the order in which the edits were made", () => {
  const { chart, lane, undo, set, get } = open();
  set(chart, "a", "1");
  set(lane, "b", "1");
  set(chart, "a", "2");
  undo.undo();
  expect([get(chart, "a"), get(lane, "b")]).toEqual(["1", "1"]);
  undo.undo();
  expect([get(chart, "a"), get(lane, "b")]).toEqual(["1", undefined]);
  undo.undo();
  expect([get(chart, "a"), undo.canUndo()]).toEqual([undefined, false]);
});

test("redo brings back what undo took, in reverse", () => {
  const { chart, lane, undo, set, get } = open();
  set(chart, "a", "1");
  set(lane, "b", "1");
  undo.undo();
  undo.undo();
  undo.redo();
  expect([get(chart, "a"), get(lane, "b")]).toEqual(["1", undefined]);
  undo.redo();
  expect([get(lane, "b"), undo.canRedo(), undo.canUndo()]).toEqual(["1", false, true]);
});

test("a new edit in either document ends what could be redone in both", () => {
  const { chart, lane, undo, set } = open();
  set(chart, "a", "1");
  undo.undo();
  set(lane, "b", "1");
  expect(undo.canRedo()).toBe(false);
  undo.redo();
  expect(chart.getMap("m").get("a")).toBeUndefined();
});

test("another person's edit is never undone", () => {
  const { chart, undo, set, get } = open();
  const other = new Y.Doc();
  other.getMap("m").set("theirs", "1");
  set(chart, "mine", "1");
  Y.applyUpdate(chart, Y.encodeStateAsUpdate(other));
  undo.undo();
  expect([get(chart, "mine"), get(chart, "theirs")]).toEqual([undefined, "1"]);
  undo.undo();
  expect(get(chart, "theirs")).toBe("1");
});

test("a value that another person has written since stays theirs", () => {
  const { chart, undo, set, get } = open();
  const other = new Y.Doc();
  set(chart, "a", "mine");
  Y.applyUpdate(other, Y.encodeStateAsUpdate(chart));
  other.getMap("m").set("a", "theirs");
  Y.applyUpdate(chart, Y.encodeStateAsUpdate(other));
  undo.undo();
  expect(get(chart, "a")).toBe("theirs");
});

test("a lane that is left takes its steps along", () => {
  const { chart, lane, undo, set, get } = open();
  set(chart, "a", "1");
  set(lane, "b", "1");
  undo.leave(lane);
  undo.undo();
  expect([get(chart, "a"), get(lane, "b"), undo.canUndo()]).toEqual([undefined, "1", false]);
});
