/** Undo leaves alone what others did since, and goes back in order, one step at a time. */
import fc from "fast-check";
import { expect, test, vi } from "vitest";
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

/** As the board moves an id: whatever copies there are make place for one. */
function move(doc: Y.Doc, id: string, to: number): void {
  const order = doc.getArray<string>("order");
  editOwn(doc, () => {
    for (let i = order.length - 1; i >= 0; i -= 1) if (order.get(i) === id) order.delete(i, 1);
    order.insert(Math.min(to, order.length), [id]);
  });
}

/** Two who moved the same at once, and heard of each other. */
function bothMove() {
  const { mine, theirs, undo, meet } = pair();
  const theirUndo = makeOwnUndo();
  theirUndo.follow(theirs);
  mine.getArray("order").push(["x", "y", "z"]);
  meet();
  move(mine, "x", 2);
  move(theirs, "x", 1);
  meet();
  return { mine, theirs, undo, theirUndo, meet };
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

test("an entry that another set while a step was taken back is not emptied by a redo", () => {
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
  const { mine, theirs, undo, theirUndo, meet } = bothMove();
  theirUndo.undo();
  meet();
  undo.undo();
  meet();
  for (const doc of [mine, theirs]) {
    expect(doc.getArray("order").toJSON()).toEqual(["x", "y", "z"]);
  }
});

test("a move made again knows where it came from, though that was spared once", () => {
  const { theirs, undo, theirUndo, meet } = bothMove();
  for (const [each, way] of [
    [undo, "undo"],
    [undo, "redo"],
    [theirUndo, "undo"],
    [undo, "undo"],
  ] as const) {
    each[way]();
    meet();
  }
  expect(theirs.getArray("order").toJSON()).toEqual(["x", "y", "z"]);
});

test("what another removed from a list that was made anew stays removed", () => {
  const { mine, theirs, undo, meet } = pair();
  const list = (doc: Y.Doc) => doc.getMap("m").get("list") as Y.Array<string>;
  editOwn(mine, () => mine.getMap("m").set("list", Y.Array.from(["x", "y"])));
  editOwn(mine, () => {
    list(mine).delete(0, 1);
    list(mine).push(["x"]);
  });
  for (const way of ["undo", "undo", "redo"] as const) undo[way]();
  meet();
  list(theirs).delete(0, 1);
  meet();
  undo.redo();
  expect(list(mine).toJSON()).toEqual(["y"]);
});

test("of two who move, and take back at whatever time, neither loses what the list holds", () => {
  const held = ["w", "x", "y", "z"];
  const nat = (most: number) => fc.nat({ max: most });
  const step = fc.record({ who: nat(1), dice: nat(9), id: nat(3), to: nat(3) });
  fc.assert(
    fc.property(fc.boolean(), fc.array(step, { maxLength: 16 }), (isGreater, steps) => {
      const { mine, theirs, undo, meet } = pair();
      [mine.clientID, theirs.clientID] = isGreater ? [2, 1] : [1, 2];
      const theirUndo = makeOwnUndo();
      theirUndo.follow(theirs);
      mine.getArray("order").push(held);
      meet();
      for (const { who, dice, id, to } of steps) {
        const [doc, own] = who === 0 ? [mine, undo] : [theirs, theirUndo];
        const before = doc.getArray("order").toArray();
        if (dice < 4) move(doc, held[id] ?? "w", to);
        else if (dice < 6)
          meet(); // where both took back at once, nobody's copy may be left
        else own[dice < 8 ? "undo" : "redo"]();
        if (dice >= 6) {
          expect(doc.getArray("order").toArray()).toEqual(expect.arrayContaining(before));
        }
      }
    }),
    { numRuns: 500 },
  );
});

test("an edit is a step of its own, also when the clock was set back before it", () => {
  const { mine, undo } = pair();
  vi.useFakeTimers({ now: 10_000 });
  set(mine, "a", 1);
  vi.setSystemTime(5_000);
  set(mine, "b", 1);
  vi.useRealTimers();
  expect(undo.counts()).toEqual({ done: 2, undone: 0 });
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
