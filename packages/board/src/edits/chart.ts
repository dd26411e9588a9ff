/** What players may do to the chart, each in one transaction; content is never deleted. */
import { type Key, printKey } from "@halflap/theory/key";
import { assert } from "@halflap/theory/units";
import * as Y from "yjs";
import type { Bar, BarId, Feel, Meter, SectionId, SlotId } from "../board.ts";
import { readChartState } from "../chart-state.ts";
import { isWhole } from "../decode.ts";
import { isStoredId, ownBar } from "../ids.ts";
import * as limits from "../limits.ts";
import { isBarLength, parseMeter, printMeter } from "../meter.ts";
import { isOneLine } from "../one-line.ts";
import { noteBar } from "../set-aside.ts";
import { isLimitName } from "../singing-state.ts";
import { insertId, removeId } from "./order.ts";
import { slotsKept } from "./slots-kept.ts";
import {
  barOf,
  barsOf,
  type ChordAt,
  editChart,
  ownBars,
  placeAt,
  placeNew,
  removeFromOrders,
  setAsideSlot,
  slotsIn,
  storedSlot,
  takeOut,
} from "./stored.ts";

/** A slot to be made. */
export type NewSlot = ChordAt & { readonly id: SlotId };

type BarMove = { readonly bar: BarId; readonly section: SectionId; readonly index: number };

/** Names the tune. */
export function setTitle(doc: Y.Doc, title: string): void {
  assert(isOneLine(title, limits.titleMax), "a title is one short line");
  setMeta(doc, "title", title);
}

/** Sets the key, which decides spelling and degrees, never a chord. */
export function setKey(doc: Y.Doc, key: Key): void {
  setMeta(doc, "key", printKey(key));
}

/** Beats of the meter a minute. */
export function setTempo(doc: Y.Doc, tempo: number): void {
  assert(tempo >= limits.tempoMin && tempo <= limits.tempoMax, "a tempo that can be played");
  setMeta(doc, "tempo", tempo);
}

/** Slots that lie beyond the end of the new bar are set aside until the meter makes room again. */
export function setMeter(doc: Y.Doc, meter: Meter): void {
  assert(parseMeter(printMeter(meter)) !== undefined, "a meter that can be written");
  setMeta(doc, "meter", printMeter(meter));
}

/** Sets how the beat is divided. */
export function setFeel(doc: Y.Doc, feel: Feel): void {
  setMeta(doc, "feel", feel);
}

/** Says whether somebody plays bass. */
export function setHasBass(doc: Y.Doc, hasBass: boolean): void {
  setMeta(doc, "hasBass", hasBass);
}

/** Sets how many bars are counted in. */
export function setCountIn(doc: Y.Doc, bars: number): void {
  assert(isWhole(bars, 0, limits.countInMax), "a few bars are counted in");
  setMeta(doc, "countIn", bars);
}

/** Says how the tune ends, in the band's words. */
export function setEnding(doc: Y.Doc, ending: string): void {
  assert(isOneLine(ending, limits.endingMax), "an ending is one line");
  setMeta(doc, "ending", ending);
}

/** Says whether minor against major thirds are the style. */
export function setBlueNotes(doc: Y.Doc, blueNotes: boolean): void {
  setMeta(doc, "blueNotes", blueNotes);
}

/** Says whether the guitars are heavily distorted. */
export function setDistorted(doc: Y.Doc, distorted: boolean): void {
  setMeta(doc, "distorted", distorted);
}

/** Sets one of the checker's limits differently, or (undefined) as it comes. */
export function setLimit(doc: Y.Doc, name: string, value: number | undefined): void {
  assert(isLimitName(name), "a limit has a name");
  assert(value === undefined || Number.isFinite(value), "a limit is a number");
  editChart(doc, (chart) => {
    if (value === undefined) chart.limits.delete(name);
    else chart.limits.set(name, value);
  });
}

/** A new section without bars, after another or, without one, at the end. */
export function addSection(
  doc: Y.Doc,
  made: {
    readonly id: SectionId;
    readonly name: string;
    readonly after: SectionId | undefined;
  },
): void {
  assert(isStoredId(made.id), "a section needs an id");
  assert(isOneLine(made.name, limits.nameMax), "a section's name is one short line");
  const seen = readChartState(doc).sections.map(({ id }) => id);
  const index = made.after === undefined ? seen.length : seen.indexOf(made.after) + 1;
  editChart(doc, (chart) => {
    chart.sectionNames.set(made.id, made.name);
    chart.barOrder.set(made.id, new Y.Array<unknown>());
    insertId(chart.sectionOrder, made.id, { seen, index });
  });
}

/** Names a section anew. */
export function renameSection(doc: Y.Doc, section: SectionId, name: string): void {
  assert(isOneLine(name, limits.nameMax), "a section's name is one short line");
  editChart(doc, (chart) => {
    chart.sectionNames.set(section, name);
  });
}

/** `index` counts the sections without this one. */
export function moveSection(
  doc: Y.Doc,
  move: { readonly section: SectionId; readonly index: number },
): void {
  const seen = readChartState(doc).sections.map(({ id }) => id);
  editChart(doc, (chart) => {
    removeId(chart.sectionOrder, move.section);
    insertId(chart.sectionOrder, move.section, { seen, index: move.index });
  });
}

/** Takes a section out of the chart; its bars are set aside. */
export function removeSection(doc: Y.Doc, section: SectionId): void {
  editChart(doc, (chart) => removeId(chart.sectionOrder, section));
}

/** Lets a section play another's chords, or its own again. */
export function borrowSection(
  doc: Y.Doc,
  borrow: { readonly section: SectionId; readonly from: SectionId | undefined },
): void {
  editChart(doc, (chart) => {
    if (borrow.from === undefined) chart.borrows.delete(borrow.section);
    else chart.borrows.set(borrow.section, borrow.from);
  });
}

/** A new bar; in a section that borrows, it is added to the section whose chords are played. */
export function addBar(
  doc: Y.Doc,
  made: {
    readonly id: BarId;
    readonly section: SectionId;
    readonly index: number;
    readonly slots: readonly NewSlot[];
  },
): void {
  assert(isStoredId(made.id), "a new bar needs an id of its own");
  const { source, seen } = ownBars(doc, made.section);
  editChart(doc, (chart) => {
    insertId(barsOf(chart, source), made.id, { seen, index: made.index });
    for (const slot of made.slots) placeNew(chart, made.id, slot);
  });
}

/**
 * Replaces what stands in a bar. A slot that says the same chord, or else starts where a chord
 * started, stays the same slot and keeps its grips; the others are set aside.
 */
export function writeBar(
  doc: Y.Doc,
  written: {
    readonly bar: Bar;
    readonly slots: readonly ChordAt[];
    readonly makeId: () => string;
  },
): void {
  const bar = ownBar(written.bar.id);
  const { kept, gone, fresh } = slotsKept(written.bar, written.slots);
  const { hidden } = slotsIn(doc, bar);
  editChart(doc, (chart) => {
    for (const { id, at, chord, moved, changed } of kept) {
      if (moved) placeAt(chart, id, { bar, at });
      if (changed) chart.chords.set(id, chord);
    }
    for (const id of [...gone, ...hidden.map(({ id }) => id)]) setAsideSlot(chart, id);
    for (const slot of fresh) placeNew(chart, bar, { ...slot, id: written.makeId() });
  });
}

/** Gives a bar a length of its own, in ticks, or (undefined) the meter's. */
export function setBarLength(
  doc: Y.Doc,
  change: { readonly bar: BarId; readonly length: number | undefined },
): void {
  const { length } = change;
  assert(length === undefined || isBarLength(length), "a bar is as long as a meter says");
  editChart(doc, (chart) => {
    if (length === undefined) chart.barLengths.delete(ownBar(change.bar));
    else chart.barLengths.set(ownBar(change.bar), length);
  });
}

/** `index` counts the bars of the section without this one. */
export function moveBar(doc: Y.Doc, move: BarMove): void {
  const bar = ownBar(move.bar);
  const { source, seen } = ownBars(doc, move.section);
  editChart(doc, (chart) => {
    removeFromOrders(chart, bar);
    insertId(barsOf(chart, source), bar, { seen, index: move.index });
  });
}

/** Takes a bar out of the chart and sets it aside. */
export function removeBar(doc: Y.Doc, bar: BarId): void {
  const own = ownBar(bar);
  editChart(doc, (chart) => {
    noteBar(chart, own);
    removeFromOrders(chart, own);
  });
}

/** Puts a bar that was set aside back into the chart. */
export function bringBackBar(doc: Y.Doc, back: BarMove): void {
  moveBar(doc, back);
}

/** Changes the chord of a slot; its grips stay. */
export function setChord(
  doc: Y.Doc,
  change: { readonly slot: SlotId; readonly chord: string },
): void {
  assert(isOneLine(change.chord, limits.chordTextMax), "a chord is one short line");
  editChart(doc, (chart) => {
    chart.chords.set(storedSlot(change.slot), change.chord);
  });
}

/** A new slot begins inside another, `at` ticks from the start of the bar. */
export function splitSlot(doc: Y.Doc, split: NewSlot & { readonly slot: SlotId }): void {
  const bar = barOf(doc, storedSlot(split.slot));
  assert(bar !== undefined, "only a slot that has a bar is split");
  editChart(doc, (chart) => placeNew(chart, bar, split));
}

/**
 * Sets a slot aside; the one before goes on, and at the start of a bar the next one starts earlier.
 */
export function removeSlot(doc: Y.Doc, slot: SlotId): void {
  takeOut(doc, storedSlot(slot));
}

/** Puts a slot that was set aside, or any other, into a bar. */
export function bringBackSlot(
  doc: Y.Doc,
  back: { readonly slot: SlotId; readonly bar: BarId; readonly at: number },
): void {
  assert(Number.isInteger(back.at) && back.at >= 0, "a start in ticks");
  editChart(doc, (chart) => {
    placeAt(chart, storedSlot(back.slot), { bar: ownBar(back.bar), at: back.at });
  });
}

function setMeta(doc: Y.Doc, name: string, value: string | number | boolean): void {
  editChart(doc, ({ meta }) => {
    meta.set(name, value);
  });
}
