/** Undo leaves alone what others did since, and goes back in order, one step at a time. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { editOwn } from "./documents.ts";
import * as chart from "./edits/chart.ts";
import { sectionId } from "./ids.ts";
import { chartLayout } from "./layout.ts";
import { makeOwnUndo } from "./own-undo.ts";

/** Two pages that are told of each other's changes when they `meet`. */
function pair() {
  const [mine, theirs] = [new Y.Doc(), new Y.Doc()];
  const undo = makeOwnUndo();
  undo.follow(mine);
  const meet = () => {
    Y.applyUpdate(mine, Y.encodeStateAsUpdate(theirs), "network");
    Y.applyUpdate(theirs, Y.encodeStateAsUpdate(mine), "network");
  };
  return { mine, theirs, undo, meet };
}

const set = (doc: Y.Doc, key: string, value: unknown) =>
  editOwn(doc, () => doc.getMap("m").set(key, value));

test("what another has removed since stays removed, and the rest of the step is taken back", () => {
  const { mine, theirs, undo, meet } = pair();
  set(mine, "a", 1);
  set(mine, "b", 1);
  editOwn(mine, () => {
    mine.getMap("m").set("a", 2);
    mine.getMap("m").set("b", 2);
  });
  meet();
  theirs.getMap("m").delete("a");
  meet();
  undo.undo();
  expect(mine.getMap("m").toJSON()).toEqual({ b: 1 });
});

test("what another has taken out of a list since does not come back by a move taken back", () => {
  const { mine, theirs, undo, meet } = pair();
  mine.getArray("order").push(["x", "y", "z"]);
  editOwn(mine, () => {
    mine.getArray("order").delete(0, 1);
    mine.getArray("order").push(["x"]);
  });
  meet();
  theirs.getArray("order").delete(2, 1);
  meet();
  undo.undo();
  expect(mine.getArray("order").toJSON()).toEqual(["y", "z"]);
});

test("an entry that another set too, and whose word did not stand, goes back and forth", () => {
  const { mine, theirs, undo, meet } = pair();
  [mine.clientID, theirs.clientID] = [2, 1]; // of two that are set at once, the greater's stands
  set(mine, "a", "before");
  meet();
  set(mine, "a", "mine");
  set(theirs, "a", "theirs");
  meet();
  expect(mine.getMap("m").toJSON()).toEqual({ a: "mine" });
  undo.undo();
  expect(mine.getMap("m").toJSON()).toEqual({ a: "before" });
  undo.redo();
  meet();
  expect(theirs.getMap("m").toJSON()).toEqual({ a: "mine" });
});

test("an entry that another set while a step was taken back is not emptied by making it again", () => {
  const { mine, theirs, undo, meet } = pair();
  [mine.clientID, theirs.clientID] = [2, 1];
  set(mine, "a", "before");
  set(mine, "a", "mine");
  meet();
  set(theirs, "a", "theirs");
  undo.undo();
  meet();
  expect(mine.getMap("m").toJSON()).toEqual({ a: "before" });
  undo.redo();
  expect(mine.getMap("m").toJSON()).toEqual({ a: "mine" });
});

test("what two moved at once stays in the list when each takes the own move back", () => {
  const { mine, theirs, undo, meet } = pair();
  const theirUndo = makeOwnUndo();
  theirUndo.follow(theirs);
  mine.getArray("order").push(["x", "y", "z"]);
  meet();
  for (const [doc, to] of [
    [mine, 2],
    [theirs, 1],
  ] as const) {
    editOwn(doc, () => {
      doc.getArray("order").delete(0, 1);
      doc.getArray("order").insert(to, ["x"]);
    });
  }
  meet();
  theirUndo.undo();
  meet();
  undo.undo();
  meet();
  for (const doc of [mine, theirs]) {
    expect(doc.getArray("order").toJSON()).toEqual(["x", "y", "z"]);
  }
});

test("a section stays in which another has put a bar since", () => {
  const { mine, theirs, undo, meet } = pair();
  const section = sectionId("coda");
  chart.addSection(mine, { id: section, name: "Coda", after: undefined });
  meet();
  const list = chartLayout(theirs).barOrder.get(section);
  if (list instanceof Y.Array) list.push(["bar-1"]);
  meet();
  undo.undo();
  expect(chartLayout(mine).sectionOrder.toJSON()).toEqual(["coda"]);
  expect(chartLayout(mine).barOrder.toJSON()).toEqual({ coda: ["bar-1"] });
  expect(undo.counts()).toEqual({ done: 0, undone: 0 });
});

test("a step that others overtook lets none of its own document go before its turn", () => {
  const { mine, theirs, undo, meet } = pair();
  const lane = new Y.Doc();
  undo.follow(lane);
  set(mine, "a", 1);
  set(lane, "grip", 1);
  set(mine, "b", 1);
  meet();
  theirs.getMap("m").set("b", 2);
  meet();
  undo.undo();
  expect([mine.getMap("m").toJSON(), lane.getMap("m").toJSON()]).toEqual([{ a: 1, b: 2 }, {}]);
  undo.undo();
  expect(mine.getMap("m").toJSON()).toEqual({ b: 2 });
});

test("an edit that changes nothing is no step", () => {
  const { mine, undo } = pair();
  set(mine, "a", 1);
  undo.undo();
  editOwn(mine, () => mine.getMap("m").delete("nowhere"));
  expect(undo.counts()).toEqual({ done: 0, undone: 1 });
});

test("what was made again can be taken back once more", () => {
  const { mine, undo } = pair();
  set(mine, "a", 1);
  set(mine, "a", 2);
  for (const step of ["undo", "undo", "redo", "redo", "undo"] as const) undo[step]();
  expect(mine.getMap("m").toJSON()).toEqual({ a: 1 });
});
