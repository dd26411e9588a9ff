/** A lane as plain values, for the copy and for trying changes: its shape, its way out and in. */
import { printGrip } from "@halflap/theory/grip";
import { defaultSetup } from "@halflap/theory/tuning";
import { fretMax } from "@halflap/theory/units";
import {
  lineOf,
  listOf,
  matching,
  maybe,
  numberIn,
  objectOf,
  oneOf,
  tableOf,
  wholeIn,
} from "./decode.ts";
import { isContentId, isStoredId } from "./ids.ts";
import { isTuning, type LaneState } from "./lane-state.ts";
import type { LaneStore } from "./lane-store.ts";
import * as limits from "./limits.ts";
import type { Dynamic } from "./playing.ts";
import {
  contentId,
  dynamicShape,
  type FillCopy,
  fillCopy,
  fillShape,
  gripText,
  type StrumCopy,
  storedId,
  strumCopy,
  strumShape,
} from "./playing-shape.ts";
import { remembered } from "./remembered.ts";
import { wishNames } from "./wishes.ts";
import { type WishesCopy, wishesCopyOf, wishesShape, writeWishes } from "./wishes-copy.ts";

export type LaneCopy = {
  readonly tuning: readonly number[]; // six MIDI notes, string 6 first
  readonly capo: number;
  readonly fretsFrom: "nut" | "capo";
  readonly lastFret: number;
  readonly scaleLength: number; // mm
  readonly grips: Readonly<Record<string, string>>; // by slot id: "x-x-3-2-4-x"
  readonly layOuts: readonly string[]; // bar ids
  readonly marks: Readonly<Record<string, string>>; // by bar id
  readonly chosenFor: Readonly<Record<string, string>>; // by slot id: the chord of that time
  readonly strums: Readonly<Record<string, StrumCopy>>; // by strum id
  readonly strumLane?: string; // a strum id
  readonly strumSections: Readonly<Record<string, string>>; // by section id: a strum id
  readonly strumBars: Readonly<Record<string, string>>; // by bar id
  readonly strumPasses: Readonly<Record<string, string>>; // by form entry id
  readonly fills: Readonly<Record<string, FillCopy>>; // by fill id
  readonly dynamics: Readonly<Record<string, Dynamic>>; // by bar id
  readonly palmMutes: readonly string[]; // bar ids
  readonly letRings: readonly string[]; // bar ids
  readonly restingPasses: readonly string[]; // form entry ids
  readonly wishes?: WishesCopy;
};

/** What hands do, where nothing is said of it yet. */
export function plainPlaying() {
  return {
    ...{ chosenFor: {}, strums: {}, strumSections: {}, strumBars: {}, strumPasses: {} },
    ...{ fills: {}, dynamics: {}, palmMutes: [], letRings: [], restingPasses: [] },
  };
}

/** A lane in which nothing is worked out yet. */
export function plainLane(): LaneCopy {
  const { tuning, capo, fretsFrom, lastFret, scaleLength } = defaultSetup;
  const setup = { tuning, capo, fretsFrom, lastFret, scaleLength };
  return { ...setup, grips: {}, layOuts: [], marks: {}, ...plainPlaying() };
}

const printed = remembered(printGrip);

/** The lane as plain values. */
export function laneCopyOf(lane: LaneState): LaneCopy {
  const { tuning, capo, fretsFrom, lastFret, scaleLength } = lane.setup;
  const { lane: strumLane, sections, bars, passes } = lane.strumming;
  const wishes = wishesCopyOf(lane.wishes);
  return {
    ...{ tuning, capo, fretsFrom, lastFret, scaleLength },
    grips: Object.fromEntries([...lane.grips].map(([slot, grip]) => [slot, printed(grip)])),
    layOuts: [...lane.layOuts],
    marks: Object.fromEntries(lane.marks),
    chosenFor: Object.fromEntries(lane.chosenFor),
    strums: Object.fromEntries([...lane.strums].map(([id, strum]) => [id, strumCopy(strum)])),
    ...(strumLane === undefined ? {} : { strumLane }),
    strumSections: Object.fromEntries(sections),
    strumBars: Object.fromEntries(bars),
    strumPasses: Object.fromEntries(passes),
    fills: Object.fromEntries([...lane.fills].map(([id, fill]) => [id, fillCopy(fill)])),
    dynamics: Object.fromEntries(lane.dynamics),
    palmMutes: [...lane.palmMutes],
    letRings: [...lane.letRings],
    restingPasses: [...lane.restingPasses],
    ...(Object.keys(wishes).length === 0 ? {} : { wishes }),
  };
}

const keyedTables = [
  "grips",
  "marks",
  "chosenFor",
  "strums",
  "strumSections",
  "strumBars",
  "strumPasses",
  "fills",
  "dynamics",
] as const;
const listTables = ["layOuts", "palmMutes", "letRings", "restingPasses"] as const;

/** Writes a lane into tables that are still empty. */
export function fillLaneStore(store: LaneStore, copy: LaneCopy): void {
  const { capo, fretsFrom, lastFret, scaleLength, strumLane } = copy;
  const meta = { capo, fretsFrom, lastFret, scaleLength, tuning: [...copy.tuning] };
  for (const [name, value] of Object.entries(meta)) store.meta.set(name, value);
  if (strumLane !== undefined) store.meta.set("strumLane", strumLane);
  for (const name of keyedTables) {
    for (const [id, value] of Object.entries(copy[name])) store[name].set(id, value);
  }
  for (const name of listTables) for (const id of copy[name]) store[name].set(id, true);
  if (copy.wishes !== undefined) writeWishes(store, wishNames, copy.wishes);
}

const most = limits.laneEntriesMax;

/** The fields of a lane. */
export const laneShape = objectOf<LaneCopy>({
  tuning: matching(
    isTuning,
    `six MIDI notes from ${limits.openPitchMin} to ${limits.openPitchMax}, low string first`,
  ),
  capo: wholeIn(0, limits.capoMax),
  fretsFrom: oneOf(["nut", "capo"] as const),
  lastFret: wholeIn(limits.lastFretMin, fretMax),
  scaleLength: numberIn(limits.scaleLengthMin, limits.scaleLengthMax),
  grips: tableOf(isContentId, gripText, most),
  layOuts: listOf(contentId, most),
  marks: tableOf(isContentId, lineOf(limits.markMax), most),
  chosenFor: tableOf(isContentId, lineOf(limits.chordTextMax), most),
  strums: tableOf(isStoredId, strumShape, limits.strumsMax),
  strumLane: maybe(storedId),
  strumSections: tableOf(isStoredId, storedId, most),
  strumBars: tableOf(isContentId, storedId, most),
  strumPasses: tableOf(isContentId, storedId, most),
  fills: tableOf(isStoredId, fillShape, limits.fillsMax),
  dynamics: tableOf(isContentId, dynamicShape, most),
  palmMutes: listOf(contentId, most),
  letRings: listOf(contentId, most),
  restingPasses: listOf(contentId, most),
  wishes: maybe(wishesShape),
});
