/** A lane as it counts once the repairs B13 to B19 and B26 to B28 of SPEC.md are made. */
import type { Grip } from "@halflap/theory/grip";
import { defaultSetup, type Setup } from "@halflap/theory/tuning";
import { type Fret, fret, fretMax, midiNote, millimetres } from "@halflap/theory/units";
import type { Lane } from "./board.ts";
import type { ChartIds } from "./chart-ids.ts";
import { isWhole } from "./decode.ts";
import { barId, slotId } from "./ids.ts";
import type { LaneStore, Table } from "./lane-store.ts";
import {
  capoMax,
  chordTextMax,
  lastFretMin,
  markMax,
  openPitchMax,
  openPitchMin,
  scaleLengthMax,
  scaleLengthMin,
} from "./limits.ts";
import { oneLine } from "./one-line.ts";
import { marked, readPlaying, valuesOf } from "./playing-state.ts";
import { readWishes } from "./wishes-state.ts";

export type LaneState = Omit<Lane, "id" | "owner">;

/** Reads any state of a lane; `decodeGrip` is the storage border of theory, or a memo of it. */
export function readLaneState(
  store: LaneStore,
  chart: ChartIds,
  decodeGrip: (text: string) => Grip | undefined,
): LaneState {
  const grips = valuesOf(store.grips, chart.slots, slotId, (value) =>
    typeof value === "string" ? decodeGrip(value) : undefined,
  );
  const chosen = valuesOf(store.chosenFor, chart.slots, slotId, (value) =>
    text(value, chordTextMax),
  );
  return {
    setup: readSetup(store.meta),
    grips,
    layOuts: marked(store.layOuts, chart.bars, barId),
    marks: valuesOf(store.marks, chart.bars, barId, (value) => text(value, markMax)),
    chosenFor: new Map([...chosen].filter(([slot]) => grips.has(slot))),
    ...readPlaying(store, chart),
    wishes: readWishes(store, chart.slots, decodeGrip),
  };
}

function text(value: unknown, max: number): string | undefined {
  return oneLine(value, max) || undefined;
}

/** Whether six numbers can be the open strings of a lane. */
export function isTuning(value: unknown): value is readonly number[] {
  return (
    Array.isArray(value) &&
    value.length === 6 &&
    value.every((pitch) => isWhole(pitch, openPitchMin, openPitchMax))
  );
}

/** Whether a number can be the scale length of a lane, in millimetres. */
export function isScaleLength(value: unknown): value is number {
  return typeof value === "number" && value >= scaleLengthMin && value <= scaleLengthMax;
}

/** B13: a part of the setup that can't be used reads as a plain guitar's. */
function readSetup(meta: Table): Setup {
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
