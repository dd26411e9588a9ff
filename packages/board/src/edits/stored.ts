/** The steps that chart edits are made of: on stored ids, inside a transaction. */
import { assert } from "@halflap/theory/units";
import * as Y from "yjs";
import type { BarId, SectionId, SlotId } from "../board.ts";
import { type PlacedSlot, readChartState } from "../chart-state.ts";
import { editOwn } from "../documents.ts";
import { isHeld, isStoredId, ownSlot } from "../ids.ts";
import { type ChartLayout, chartLayout } from "../layout.ts";
import { chordTextMax } from "../limits.ts";
import { knownFields, setKeeping } from "../newer-fields.ts";
import { isOneLine } from "../one-line.ts";
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

/** Where a slot was placed, and the others of its bar by start; undefined when it is set aside. */
export function placeOf(
  doc: Y.Doc,
  slot: SlotId,
):
  | { readonly bar: BarId; readonly at: number; readonly others: readonly PlacedSlot[] }
  | undefined {
  for (const [bar, placed] of readChartState(doc).placed) {
    const found = placed.find(({ id }) => id === slot);
    if (found === undefined) continue;
    return { bar, at: found.at, others: placed.filter(({ id }) => id !== slot) };
  }
  return undefined;
}

/** Takes a slot out of its bar; at the start of a bar the next one starts earlier. */
export function takeOut(doc: Y.Doc, slot: SlotId): void {
  const place = placeOf(doc, slot);
  if (place === undefined) return;
  const next = place.others.find(({ at }) => at > 0);
  editChart(doc, (chart) => {
    chart.places.delete(slot);
    const uncovered = place.at === 0 && place.others.every(({ at }) => at > 0);
    if (uncovered && next !== undefined) placeAt(chart, next.id, { bar: place.bar, at: 0 });
  });
}
