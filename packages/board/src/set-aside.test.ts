/** Bars that are taken out of the chart are set aside, whatever stands in them. */
import { beforeEach, describe, expect, test } from "vitest";
import type { Board } from "./board.ts";
import { copyOf, decodeCopy, fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { type BoardDocuments, emptyDocuments } from "./documents.ts";
import * as chart from "./edits/chart.ts";
import { barId, sectionId, slotId } from "./ids.ts";
import { makeReader } from "./read.ts";

const empty = barId("empty");
const verse = sectionId("verse");

let docs: BoardDocuments;
let read: () => Board;

beforeEach(() => {
  docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  read = makeReader(docs);
  chart.addBar(docs.board, { id: empty, section: verse, index: 1, slots: [] });
});

function again(): Board {
  const copied = emptyDocuments();
  const copy = decodeCopy(JSON.parse(JSON.stringify(copyOf(docs))));
  if (!copy.ok) throw new Error(copy.error.words);
  fillDocuments(copied, copy.value);
  return makeReader(copied)();
}

test("a chord written out of its bar is set aside with where it stood, and comes back", () => {
  const bar = read().sections[1]?.bars.find(({ slots }) => slots.length > 1);
  const [stays, goes] = bar?.slots ?? [];
  if (bar === undefined || stays === undefined || goes === undefined) throw new Error("two chords");
  const slots = [{ at: 0, chord: stays.text }];
  chart.writeBar(docs.board, { bar, slots, makeId: () => "new" });
  const aside = { id: goes.id, text: goes.text, was: { bar: bar.id, at: goes.start } };
  expect(read().setAside.slots).toEqual([aside]);
  expect(again().setAside).toEqual(read().setAside);
  chart.bringBackSlot(docs.board, { slot: goes.id, ...aside.was });
  expect(read().setAside.slots).toEqual([]);
  expect(read().sections[1]?.bars.find(({ id }) => id === bar.id)).toEqual(bar);
});

test("a chord that another pushes aside stands where it is, and is pushed out of there", () => {
  const bar = read().sections[1]?.bars[0];
  const [first] = bar?.slots ?? [];
  if (bar === undefined || first === undefined) throw new Error("a bar with a chord");
  const pushed = { id: slotId("zz"), at: first.start, chord: "A7" };
  chart.splitSlot(docs.board, { slot: first.id, ...pushed });
  const aside = { id: "zz", text: "A7", was: { bar: bar.id, at: first.start } };
  expect(read().setAside.slots).toEqual([aside]);
  chart.removeSlot(docs.board, first.id);
  expect(read().setAside.slots).toContainEqual(aside);
  expect(again().setAside).toEqual(read().setAside);
});

describe("a bar in which the chord before goes on", () => {
  test("is set aside when it is removed, as long as it was, and comes back", () => {
    chart.setBarLength(docs.board, { bar: empty, length: 96 });
    chart.removeBar(docs.board, empty);
    expect(read().setAside.bars).toEqual([empty]);
    expect(again().setAside).toEqual(read().setAside);
    chart.bringBackBar(docs.board, { bar: empty, section: verse, index: 1 });
    expect(read().setAside.bars).toEqual([]);
    expect(read().sections[1]?.bars[1]).toMatchObject({ id: empty, length: 96 });
  });

  test("that is as long as the meter says is set aside too", () => {
    chart.removeBar(docs.board, empty);
    expect(read().setAside.bars).toEqual([empty]);
    expect(again().setAside).toEqual(read().setAside);
    chart.bringBackBar(docs.board, { bar: empty, section: verse, index: 1 });
    chart.setMeter(docs.board, { beats: 3, unit: 4 });
    expect(read().sections[1]?.bars[1]).toMatchObject({ id: empty, length: 144 });
  });

  test("goes with its section", () => {
    chart.removeSection(docs.board, verse);
    expect(read().setAside.bars).toContain(empty);
    expect(again().setAside).toEqual(read().setAside);
  });

  test("is set aside where its section rests", () => {
    const bar = barId("resting");
    chart.addBar(docs.board, { id: bar, section: sectionId("tag"), index: 0, slots: [] });
    chart.borrowSection(docs.board, { section: sectionId("tag"), from: verse });
    expect(read().setAside.bars).toContain(bar);
    expect(again().setAside).toEqual(read().setAside);
  });
});
