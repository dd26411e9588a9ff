/** Merging and folding: the thread's port and the stand-in's alike, and a thread's own failures. */
import { setTitle } from "@halflap/board/edits/chart";
import { afterAll, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { foldingHere } from "./folding-here.ts";
import { type Folding, Unreadable } from "./folding-port.ts";
import { startFoldingThread } from "./folding-thread.ts";

const thread = startFoldingThread();
afterAll(() => thread.close());

function updatesOf(count: number, keys = count): Uint8Array[] {
  const doc = new Y.Doc();
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  for (let i = 0; i < count; i += 1) doc.getMap("m").set(`k${i % keys}`, i);
  return updates;
}

function mapIn(update: Uint8Array): unknown {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, update);
  expect(doc.store.pendingStructs).toBeNull();
  return doc.getMap("m").toJSON();
}

const adapters: readonly (readonly [string, Folding])[] = [
  ["here", foldingHere],
  ["in a thread", thread],
];

describe.each(adapters)("%s", (_, folding) => {
  test("what is merged, and what is folded, says what the updates say", async () => {
    const updates = updatesOf(300, 20);
    const wanted = mapIn(Y.mergeUpdates(updates));
    const [merged, folded] = [await folding.merge(updates), await folding.fold(updates)];
    expect(mapIn(merged)).toEqual(wanted);
    expect(mapIn(folded)).toEqual(wanted);
    expect(folded.length).toBeLessThan(merged.length);
    expect(updates.every(({ length }) => length > 0)).toBe(true); // what came in was not moved away
  });

  test("a title is read as it stands last, and none where nothing says one", async () => {
    const doc = new Y.Doc();
    setTitle(doc, "One");
    const first = Y.encodeStateAsUpdate(doc);
    setTitle(doc, "Grün");
    expect(await folding.title([first, Y.encodeStateAsUpdate(doc)])).toBe("Grün");
    expect(await folding.title(updatesOf(2))).toBe("");
    await expect(folding.title([new Uint8Array([7, 7, 7])])).rejects.toThrow(Unreadable);
  });

  test.each([
    ["bytes that are no update", [...updatesOf(2), new Uint8Array([7, 7, 7])], "row 3 of 3"],
    ["a row that is missing", updatesOf(3).filter((_, i) => i !== 1), "missing"],
    ["a row that is cut short", updatesOf(3).map((each) => each.slice(0, -3)), "row 1 of 3"],
  ])("%s are said to be unreadable, and the next document is read", async (_kind, bad, why) => {
    await expect(folding.merge(bad)).rejects.toThrow(Unreadable);
    await expect(folding.merge(bad)).rejects.toThrow(why);
    await expect(folding.fold(bad)).rejects.toThrow(Unreadable);
    expect(mapIn(await folding.merge(updatesOf(2)))).toEqual({ k0: 0, k1: 1 });
  });

  test("many at once are all answered, each its own", async () => {
    const counts = Array.from({ length: 20 }, (_, i) => i + 1);
    const ask = (count: number, i: number) =>
      i % 2 === 0 ? folding.merge(updatesOf(count)) : folding.fold(updatesOf(count));
    const answers = await Promise.all(counts.map(ask));
    expect(answers.map((update) => Object.keys(mapIn(update) as object).length)).toEqual(counts);
  });
});

/** A document that takes a while to fold. */
const slow = updatesOf(60_000);
const bounds = { merge: 60_000, title: 60_000, fold: 60_000, heap: 256 };

test("a job that takes too long is given up, and the one behind it is done", async () => {
  const hasty = startFoldingThread({ ...bounds, fold: 1 });
  const [long, short] = await Promise.allSettled([hasty.fold(slow), hasty.merge(updatesOf(2))]);
  expect(long).toMatchObject({ status: "rejected", reason: { name: "Unreadable" } });
  expect(long).toMatchObject({ reason: { message: expect.stringContaining("longer than 1 ms") } });
  expect(short.status).toBe("fulfilled");
  expect(mapIn(await hasty.merge(updatesOf(1)))).toEqual({ k0: 0 });
  await hasty.close();
});

test("a title that takes too long is given up; titles go behind merges, before folds", async () => {
  const hasty = startFoldingThread({ ...bounds, title: 1 });
  await expect(hasty.title(slow)).rejects.toThrow("its title takes longer than 1 ms");
  await hasty.close();
  const done: string[] = [];
  const asked = [
    thread.merge(updatesOf(1)).then(() => done.push("first")),
    thread.fold(updatesOf(2)).then(() => done.push("fold")),
    thread.title(updatesOf(1)).then(() => done.push("title")),
    thread.merge(updatesOf(1)).then(() => done.push("merge")),
  ];
  await Promise.all(asked);
  expect(done).toEqual(["first", "merge", "title", "fold"]);
});

test("a job that takes too much memory ends its thread, not the process", async () => {
  const small = startFoldingThread({ ...bounds, heap: 24 });
  await expect(small.fold(slow)).rejects.toThrow(Unreadable);
  expect(mapIn(await small.merge(updatesOf(2)))).toEqual({ k0: 0, k1: 1 });
  await small.close();
});

test("closing rejects what waits, and says nothing of the documents", async () => {
  const closing = startFoldingThread();
  const waiting = expect(closing.fold(slow)).rejects.not.toThrow(Unreadable);
  await closing.close();
  await waiting;
  await expect(closing.merge([])).rejects.toThrow("closed");
});
