/** A lane document as it counts once the repairs B13 to B15 of SPEC.md are made. */
import type { Grip } from "@halflap/theory/grip";
import { defaultSetup, type Setup } from "@halflap/theory/tuning";
import { type Fret, fret, fretMax, midiNote, millimetres } from "@halflap/theory/units";
import type * as Y from "yjs";
import type { BarId, SlotId } from "./board.ts";
import { barId, isContentId, slotId } from "./ids.ts";
import { laneLayout } from "./layout.ts";
import {
  capoMax,
  laneEntriesMax,
  lastFretMin,
  markMax,
  openPitchMax,
  openPitchMin,
  scaleLengthMax,
  scaleLengthMin,
} from "./limits.ts";
import { oneLine } from "./one-line.ts";

export type LaneState = {
  readonly setup: Setup;
  readonly grips: ReadonlyMap<SlotId, Grip>;
  readonly layOuts: ReadonlySet<BarId>;
  readonly marks: ReadonlyMap<BarId, string>;
};

/** The bars and slots of the chart in reading order: their entries come first in a lane. */
export type ChartIds = { readonly bars: readonly BarId[]; readonly slots: readonly SlotId[] };

/**
 * Reads any state of a lane document; `decodeGrip` is the storage border of theory, or a memo of
 * it.
 */
export function readLaneState(
  doc: Y.Doc,
  chart: ChartIds,
  decodeGrip: (text: string) => Grip | undefined,
): LaneState {
  const layout = laneLayout(doc);
  const grips = new Map<SlotId, Grip>();
  for (const key of keysInOrder(layout.grips, chart.slots)) {
    const stored = layout.grips.get(key);
    const grip = typeof stored === "string" ? decodeGrip(stored) : undefined;
    if (grip !== undefined) grips.set(slotId(key), grip);
  }
  const layOuts = new Set<BarId>();
  for (const key of keysInOrder(layout.layOuts, chart.bars)) {
    if (layout.layOuts.get(key) === true) layOuts.add(barId(key));
  }
  const marks = new Map<BarId, string>();
  for (const key of keysInOrder(layout.marks, chart.bars)) {
    const text = oneLine(layout.marks.get(key), markMax);
    if (text !== undefined && text !== "") marks.set(barId(key), text);
  }
  return { setup: readSetup(layout.meta), grips, layOuts, marks };
}

/** Whether six numbers can be the open strings of a lane. */
export function isTuning(value: unknown): value is readonly number[] {
  return (
    Array.isArray(value) &&
    value.length === 6 &&
    value.every((pitch) => isWhole(pitch, openPitchMin, openPitchMax))
  );
}

/** Whether a value is a whole number in a range, both ends included. */
export function isWhole(value: unknown, least: number, most: number): value is number {
  return Number.isInteger(value) && Number(value) >= least && Number(value) <= most;
}

/** Whether a number can be the scale length of a lane, in millimetres. */
export function isScaleLength(value: unknown): value is number {
  return typeof value === "number" && value >= scaleLengthMin && value <= scaleLengthMax;
}

/** B13: a part of the setup that can't be used reads as a plain guitar's. */
function readSetup(meta: Y.Map<unknown>): Setup {
  const tuning = meta.get("tuning");
  const scaleLength = meta.get("scaleLength");
  const fretsFrom = meta.get("fretsFrom");
  return {
    tuning: isTuning(tuning) ? tuning.map(midiNote) : defaultSetup.tuning,
    capo: fretIn(meta.get("capo"), 0, capoMax) ?? defaultSetup.capo,
    fretsFrom: fretsFrom === "nut" || fretsFrom === "capo" ? fretsFrom : defaultSetup.fretsFrom,
    lastFret: fretIn(meta.get("lastFret"), lastFretMin, fretMax) ?? defaultSetup.lastFret,
    scaleLength: isScaleLength(scaleLength) ? millimetres(scaleLength) : defaultSetup.scaleLength,
  };
}

function fretIn(value: unknown, least: number, most: number): Fret | undefined {
  return isWhole(value, least, most) ? fret(value) : undefined;
}

/** B15: entries of the chart come first, in its order; others are kept after them, by id. */
function keysInOrder(stored: Y.Map<unknown>, chart: readonly string[]): readonly string[] {
  const standing = chart.filter((key) => stored.has(key));
  if (standing.length === stored.size) return standing;
  const known = new Set(standing);
  const others = [...stored.keys()].filter((key) => !known.has(key) && isContentId(key)).sort();
  return [...standing, ...others].slice(0, laneEntriesMax);
}
