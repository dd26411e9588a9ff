/** The demo boards read as they were written. */
import { expect, test } from "vitest";
import { fillDocuments } from "./copy.ts";
import { demoDraft, demoSolution } from "./demo.ts";
import { emptyDocuments } from "./documents.ts";
import { makeReader } from "./read.ts";

test.each([
  ["draft", demoDraft, 0],
  ["solution", demoSolution, 4],
])("the %s has a chord and a grip in every slot that is played in chords", (_, demo, free) => {
  const docs = emptyDocuments();
  fillDocuments(docs, demo());
  const board = makeReader(docs)();
  const bars = board.sections.flatMap((section) => section.bars);
  const slots = bars.flatMap((bar) => bar.slots);
  expect(bars).toHaveLength(32);
  expect(slots).toHaveLength(4 + 11 + 10 + 11 + 4);
  expect(slots.every(({ chord }) => chord?.kind === "chord")).toBe(true);
  expect(board.lanes.lower.grips.size).toBe(slots.length);
  expect(board.lanes.upper.grips.size).toBe(slots.length - free);
  expect([...board.lanes.upper.grips.keys()].every((id) => slots.some((s) => s.id === id))).toBe(
    true,
  );
  const lengths = new Map(board.sections.map(({ id, bars }) => [id, bars.length]));
  expect(board.form.reduce((sum, { section }) => sum + (lengths.get(section) ?? 0), 0)).toBe(56);
  expect(board.setAside.bars).toEqual([]);
});

test("the draft's high part counts its frets from a capo on 3", () => {
  const { capo, fretsFrom } = demoDraft().lanes.upper;
  expect([capo, fretsFrom]).toEqual([3, "capo"]);
});
