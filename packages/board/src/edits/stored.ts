/** The steps that chart edits are made of: on stored ids, inside a transaction. */
import { assert } from "@halflap/theory/units";
import * as Y from "yjs";
import type { BarId, SectionId, SlotId } from "../board.ts";
import { readChartState } from "../chart-state.ts";
import { editOwn } from "../documents.ts";
import { isHeld, isStoredId, ownSlot } from "../ids.ts";
import { type ChartLayout, chartLayout } from "../layout.ts";
import { chordTextMax } from "../limits.ts";
import { knownFields, setKeeping } from "../newer-fields.ts";
import { isOneLine } from "../one-line.ts";
import { barLength, sourceOf, standingSlots } from "../read.ts";
import { removeId } from "./order.ts";

/** A chord and where in its bar it starts, in ticks. */
export type ChordAt = { readonly at: number; readonly chord: string };

/** One change of the chart, in one transaction of one's own. */
export function editChart(doc: Y.Doc, change: (chart: ChartLayout) => void): void {
  editOwn(doc, () => change(chartLayout(doc)));
}

/** The stored slot behind a slot of the board; one in which the chord before goes on has none. */
export function storedSlot(slot: SlotId): SlotId {
  assert(!isHeld(slot), "a chord that goes on from before is changed by writing its bar");
  return ownSlot(slot);
}

/** Whose bars a section plays, and which those are as a reader sees them. */
export function ownBars(doc: Y.Doc, section: SectionId) {
  const chart = readChartState(doc);
  const source = sourceOf(chart, section);
  const seen = chart.sections.find(({ id }) => id === source)?.bars ?? [];
  return { source, seen };
}

/** The order of a section's own bars, made anew where the document holds something else. */
export function barsOf(chart: ChartLayout, section: SectionId): Y.Array<unknown> {
  const stored = chart.barOrder.get(section);
  if (stored instanceof Y.Array) return stored;
  const made = new Y.Array<unknown>();
  chart.barOrder.set(section, made);
  return made;
}

/** Takes a bar out of every section. */
export function removeFromOrders(chart: ChartLayout, bar: BarId): void {
  for (const order of chart.barOrder.values()) {
    if (order instanceof Y.Array) removeId(order, bar);
  }
}

/** A new slot, with its chord and its place. */
export function placeNew(
  chart: ChartLayout,
  bar: BarId,
  slot: ChordAt & { readonly id: string },
): void {
  assert(isStoredId(slot.id), "a new slot needs an id of its own");
  assert(isOneLine(slot.chord, chordTextMax), "a chord is one short line");
  assert(Number.isInteger(slot.at) && slot.at >= 0, "a start in ticks");
  chart.chords.set(slot.id, slot.chord);
  placeAt(chart, slot.id, { bar, at: slot.at });
}

/** Says where a slot stands. */
export function placeAt(
  chart: ChartLayout,
  slot: string,
  place: { readonly bar: BarId; readonly at: number },
): void {
  setKeeping(chart.places, slot, place, knownFields.places);
}

/** Takes a slot's place away, and keeps where it was. */
export function setAsideSlot(chart: ChartLayout, slot: string): void {
  const place = chart.places.get(slot);
  if (place !== undefined) chart.formerPlaces.set(slot, place);
  chart.places.delete(slot);
}

/** In which bar a slot was placed; undefined when it is set aside. */
export function barOf(doc: Y.Doc, slot: SlotId): BarId | undefined {
  const { placed } = readChartState(doc);
  return [...placed].find(([, slots]) => slots.some(({ id }) => id === slot))?.[0];
}

/**
 * The slots that stand in a bar, and those that are set aside though they were placed inside it;
 * what lies beyond its end is neither: it waits for a longer bar (B8).
 */
export function slotsIn(doc: Y.Doc, bar: BarId) {
  const chart = readChartState(doc);
  const length = barLength(chart, bar);
  const placed = chart.placed.get(bar) ?? [];
  const standing = standingSlots(placed, length);
  const hidden = placed.filter((slot) => slot.at < length && !standing.includes(slot));
  return { standing, hidden };
}

/**
 * Takes a slot out of its bar; at the start of a bar the next one starts earlier. What did not
 * stand beside it does not come up in its place.
 */
export function takeOut(doc: Y.Doc, slot: SlotId): void {
  const bar = barOf(doc, slot);
  if (bar === undefined) return;
  const { standing, hidden } = slotsIn(doc, bar);
  const isFirst = standing[0]?.id === slot && standing[0].at === 0;
  const next = isFirst ? standing[1] : undefined;
  editChart(doc, (chart) => {
    for (const { id } of hidden) setAsideSlot(chart, id);
    setAsideSlot(chart, slot);
    if (next !== undefined) placeAt(chart, next.id, { bar, at: 0 });
  });
}
