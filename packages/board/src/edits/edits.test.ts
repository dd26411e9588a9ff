/** The named edits: what they do, what they keep, and what they refuse. */

import { decodeGrip } from "@halflap/theory/grip";
import { parseKey } from "@halflap/theory/key";
import { fret, midiNote } from "@halflap/theory/units";
import { beforeEach, describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board } from "../board.ts";
import { copyOf, fillDocuments } from "../copy.ts";
import { demoSolution } from "../demo.ts";
import { type BoardDocuments, emptyDocuments, ownEdit } from "../documents.ts";
import { barId, formEntryId, sectionId, slotId } from "../ids.ts";
import { makeReader } from "../read.ts";
import * as chart from "./chart.ts";
import { setForm } from "./form-change.ts";
import * as lane from "./lane.ts";

let docs: BoardDocuments;
let read: () => Board;
let count: number;

beforeEach(() => {
  docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  read = makeReader(docs);
  count = 0;
});

const makeId = () => {
  count += 1;
  return `new-${count}`;
};
const verse = sectionId("verse");
const solo = sectionId("solo");
const section = (id: string) => read().sections.find((each) => each.id === id);
const barIds = (id: string) => section(id)?.bars.map((bar) => bar.id);
const order = () => read().sections.map(({ id }) => id);
const bar = (id: string) => {
  const found = read()
    .sections.flatMap(({ bars }) => bars)
    .find((each) => each.id === id);
  if (found === undefined) throw new Error(`no bar ${id}`);
  return found;
};
const slots = (id: string) => bar(id).slots.map(({ id, start, text }) => `${id} ${start} ${text}`);

describe("settings", () => {
  test("are read as they were set", () => {
    const key = parseKey("G minor");
    if (key.ok) chart.setKey(docs.board, key.value);
    chart.setTitle(docs.board, "Low Tide");
    chart.setTempo(docs.board, 92.5);
    chart.setMeter(docs.board, { beats: 6, unit: 8 });
    chart.setFeel(docs.board, "shuffle");
    chart.setHasBass(docs.board, false);
    expect(read()).toMatchObject({
      title: "Low Tide",
      key: { tonic: "G", mode: "minor" },
      tempo: 92.5,
      meter: { beats: 6, unit: 8 },
      feel: "shuffle",
      hasBass: false,
    });
  });

  test("a bad one is a bug", () => {
    expect(() => chart.setTempo(docs.board, Number.NaN)).toThrow();
    expect(() => chart.setTitle(docs.board, "a\nb")).toThrow();
    expect(() => chart.setMeter(docs.board, { beats: 0, unit: 4 })).toThrow();
    expect(() => lane.setCapo(docs["lane-upper"], fret(20))).toThrow();
  });
});

describe("sections", () => {
  test("are added after another or at the end, renamed, moved and taken out", () => {
    chart.addSection(docs.board, { id: sectionId("b"), name: "Bridge", after: verse });
    chart.addSection(docs.board, { id: sectionId("e"), name: "End", after: undefined });
    expect(order()).toEqual(["intro", "verse", "b", "chorus", "solo", "tag", "e"]);
    chart.renameSection(docs.board, sectionId("b"), "Middle");
    expect(section("b")?.name).toBe("Middle");
    chart.moveSection(docs.board, { section: sectionId("b"), index: 0 });
    expect(order().slice(0, 2)).toEqual(["b", "intro"]);
    chart.moveSection(docs.board, { section: sectionId("b"), index: 3 });
    expect(order().indexOf(sectionId("b"))).toBe(3);
    chart.removeSection(docs.board, sectionId("tag"));
    expect(read().setAside.bars).toEqual(["tag-1", "tag-2", "tag-3", "tag-4"]);
    expect(read().form.some((entry) => entry.section === "tag")).toBe(false);
  });

  test("E4 a bar added to a section that borrows goes to the one it borrows from", () => {
    chart.addBar(docs.board, { id: barId("x"), section: solo, index: 0, slots: [] });
    expect(barIds("verse")?.[0]).toBe("x");
    expect(barIds("solo")?.[0]).toBe("solo~x");
    chart.borrowSection(docs.board, { section: solo, from: undefined });
    expect(barIds("solo")).toEqual([]);
    chart.addBar(docs.board, { id: barId("y"), section: solo, index: 9, slots: [] });
    chart.borrowSection(docs.board, { section: solo, from: sectionId("intro") });
    expect(barIds("solo")).toHaveLength(4);
  });
});

describe("bars", () => {
  test("E5 move between sections, are set aside and come back", () => {
    chart.moveBar(docs.board, { bar: barId("verse-8"), section: verse, index: 0 });
    expect(barIds("verse")?.slice(0, 2)).toEqual(["verse-8", "verse-1"]);
    chart.moveBar(docs.board, { bar: barId("solo~verse-8"), section: sectionId("tag"), index: 4 });
    expect(barIds("tag")?.at(-1)).toBe("verse-8");
    chart.removeBar(docs.board, barId("verse-8"));
    expect([...read().setAside.texts]).toEqual([["verse-8", "C7"]]);
    const back = { bar: barId("verse-8"), section: verse, index: 7 };
    chart.bringBackBar(docs.board, back);
    expect(read().setAside.bars).toEqual([]);
    expect(read().lanes.lower.grips.has(slotId("verse-8-1"))).toBe(true);
    expect(copyOf(docs)).toEqual(demoSolution());
  });

  test("E5 go where a reader sees the place, also beside a bar that stands elsewhere", () => {
    const theirs = new Y.Doc();
    Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
    const tag = sectionId("tag");
    chart.moveBar(docs.board, { bar: barId("verse-1"), section: tag, index: 0 });
    chart.moveBar(theirs, { bar: barId("verse-1"), section: verse, index: 1 });
    Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(theirs));
    expect(barIds("tag")?.[0]).toBe("tag-1");
    chart.addBar(docs.board, { id: barId("x"), section: tag, index: 1, slots: [] });
    chart.moveBar(docs.board, { bar: barId("tag-4"), section: tag, index: 1 });
    expect(barIds("tag")).toEqual(["tag-1", "tag-4", "x", "tag-2", "tag-3"]);
  });

  test("may have a length of their own", () => {
    chart.setBarLength(docs.board, { bar: barId("tag-4"), length: 96 });
    expect(bar("tag-4")).toMatchObject({ length: 96, slots: [{ length: 96 }] });
    chart.setBarLength(docs.board, { bar: barId("tag-4"), length: undefined });
    expect(bar("tag-4").length).toBe(192);
    expect(() => chart.setBarLength(docs.board, { bar: barId("tag-4"), length: 5 })).toThrow();
  });
});

describe("E1 writing a bar", () => {
  const write = (id: string, written: readonly { at: number; chord: string }[]) =>
    chart.writeBar(docs.board, { bar: bar(id), slots: written, makeId });

  test("keeps the slot of a chord that stays, wherever it goes", () => {
    write("verse-4", [
      { at: 0, chord: "C7" },
      { at: 96, chord: "F7" },
    ]);
    expect(slots("verse-4")).toEqual(["verse-4-2 0 C7", "new-1 96 F7"]);
    const was = { bar: "verse-4", at: 0 };
    expect(read().setAside.slots).toEqual([{ id: "verse-4-1", text: "Gm7", was }]);
  });

  test("keeps the slot in which another chord is written", () => {
    write("verse-4", [
      { at: 0, chord: "Gm9" },
      { at: 96, chord: "C7" },
      { at: 144, chord: "C9" },
    ]);
    expect(slots("verse-4")).toEqual(["verse-4-1 0 Gm9", "verse-4-2 96 C7", "new-1 144 C9"]);
  });

  test("writes the same again without a change", () => {
    let updates = 0;
    docs.board.on("update", () => {
      updates += 1;
    });
    write("verse-4", [
      { at: 0, chord: "Gm7" },
      { at: 96, chord: "C7" },
    ]);
    expect(updates).toBe(0);
  });

  test("E4 writes the bar that is borrowed", () => {
    write("solo~verse-1", [{ at: 0, chord: "F9" }]);
    expect(slots("verse-1")).toEqual(["verse-1-1 0 F9"]);
    expect(slots("solo~verse-1")).toEqual(["solo~verse-1-1 0 F9"]);
  });

  test("leaves a chord that goes on from before as it is", () => {
    write("verse-3", [{ at: 96, chord: "Gm7" }]);
    expect(slots("verse-3")).toEqual(["~verse-3 0 D7", "verse-3-1 96 Gm7"]);
    write("verse-3", [
      { at: 0, chord: "D7" },
      { at: 96, chord: "Gm7" },
    ]);
    expect(slots("verse-3")).toEqual(["~verse-3 0 D7", "verse-3-1 96 Gm7"]);
    write("verse-3", [{ at: 0, chord: "A7" }]);
    expect(slots("verse-3")).toEqual(["new-1 0 A7"]);
  });
});

describe("slots", () => {
  test("change their chord, are split, set aside and brought back", () => {
    chart.setChord(docs.board, { slot: slotId("solo~verse-1-1"), chord: "F13" });
    expect(slots("verse-1")).toEqual(["verse-1-1 0 F13"]);
    chart.splitSlot(docs.board, {
      slot: slotId("verse-1-1"),
      id: slotId("n"),
      at: 96,
      chord: "D7",
    });
    expect(slots("verse-1")).toEqual(["verse-1-1 0 F13", "n 96 D7"]);
    chart.removeSlot(docs.board, slotId("n"));
    expect(slots("verse-1")).toEqual(["verse-1-1 0 F13"]);
    chart.bringBackSlot(docs.board, { slot: slotId("n"), bar: barId("verse-3"), at: 144 });
    expect(slots("verse-3")).toEqual(["verse-3-1 0 Gm7", "n 144 D7"]);
  });

  test("E2 at the start of a bar the next one starts earlier", () => {
    chart.removeSlot(docs.board, slotId("verse-4-1"));
    expect(slots("verse-4")).toEqual(["verse-4-2 0 C7"]);
    chart.removeSlot(docs.board, slotId("verse-4-1"));
    expect(slots("verse-4")).toEqual(["verse-4-2 0 C7"]);
  });

  test("one in which the chord before goes on is not stored, so not changed", () => {
    chart.removeSlot(docs.board, slotId("verse-3-1"));
    expect(slots("verse-3")).toEqual(["~verse-3 0 D7"]);
    const held = slotId("~verse-3");
    expect(() => chart.setChord(docs.board, { slot: held, chord: "C7" })).toThrow();
  });
});

describe("the form", () => {
  test("E3 the form keeps the entries that stay at both ends", () => {
    const form = read().form.map(({ section, times }) => ({ section, times }));
    form.splice(3, 1, { section: verse, times: 2 });
    setForm(docs.board, { form, makeId });
    const ids = ["form-1", "form-2", "form-3", "new-1", "form-5", "form-6", "form-7", "form-8"];
    expect(read().form.map(({ id }) => id)).toEqual(ids);
    setForm(docs.board, { form: [], makeId });
    expect(read().form[0]?.id).toBe(formEntryId("~intro"));
  });
});

test("a lane's owner places and clears grips, sets up the guitar, rests and marks", () => {
  const own = docs["lane-upper"];
  const slot = slotId("intro-1-1");
  const grip = decodeGrip("x-x-x-10-11-10");
  if (grip === undefined) throw new Error("a grip");
  lane.placeGrip(own, { slot, grip });
  lane.setTuning(own, [38, 45, 50, 55, 59, 64].map(midiNote));
  lane.setCapo(own, fret(2));
  lane.setFretsFrom(own, "nut");
  lane.setLastFret(own, fret(24));
  lane.setScaleLength(own, 628);
  lane.layOut(own, { bar: barId("tag-1"), rest: true });
  lane.setMark(own, { bar: barId("tag-1"), text: "listen" });
  const { upper } = read().lanes;
  expect(upper.grips.get(slot)).toEqual(grip);
  expect(upper.setup).toMatchObject({ capo: 2, fretsFrom: "nut", lastFret: 24, scaleLength: 628 });
  expect(upper.setup.tuning[0]).toBe(38);
  expect([...upper.layOuts]).toEqual(["tag-1"]);
  expect(upper.marks.get(barId("tag-1"))).toBe("listen");
  lane.clearGrip(own, slot);
  lane.layOut(own, { bar: barId("tag-1"), rest: false });
  lane.setMark(own, { bar: barId("tag-1"), text: "" });
  const after = read().lanes.upper;
  expect([after.grips.has(slot), after.layOuts.size, after.marks.has(barId("tag-1"))]).toEqual([
    false,
    0,
    false,
  ]);
});

test("every edit is one transaction of one's own, and undo takes it back", () => {
  const before = copyOf(docs);
  const undo = new Y.UndoManager(docs.board, {
    trackedOrigins: new Set([ownEdit]),
    captureTimeout: 0,
  });
  chart.removeSection(docs.board, verse);
  chart.moveBar(docs.board, { bar: barId("tag-1"), section: sectionId("intro"), index: 0 });
  chart.removeSlot(docs.board, slotId("chorus-7-1"));
  const after = copyOf(docs);
  for (let i = 0; i < 3; i += 1) undo.undo();
  expect(copyOf(docs)).toEqual(before);
  for (let i = 0; i < 3; i += 1) undo.redo();
  expect(copyOf(docs)).toEqual(after);
});
