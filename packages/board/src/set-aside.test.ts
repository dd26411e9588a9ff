/** Bars that are taken out of the chart are set aside, whatever stands in them. */
import { beforeEach, describe, expect, test } from "vitest";
import type { Board } from "./board.ts";
import { copyOf, decodeCopy, fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { type BoardDocuments, emptyDocuments } from "./documents.ts";
import * as chart from "./edits/chart.ts";
import { barId, sectionId } from "./ids.ts";
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
