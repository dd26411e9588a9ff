/**
 * What the owner of a lane may do to it: each command is one transaction on the lane's document.
 */
import { type Grip, printGrip } from "@halflap/theory/grip";
import type { Tuning } from "@halflap/theory/tuning";
import { assert, type Fret, fretMax } from "@halflap/theory/units";
import type * as Y from "yjs";
import type { BarId, SlotId } from "../board.ts";
import { isWhole } from "../decode.ts";
import { editOwn } from "../documents.ts";
import { isScaleLength, isTuning } from "../lane-state.ts";
import { laneLayout } from "../layout.ts";
import { capoMax, lastFretMin } from "../limits.ts";
import { applyLaneEdits } from "./lane-edits.ts";

/** Chooses the grip of a slot, for the chord that stands there where that is said. */
export function placeGrip(
  doc: Y.Doc,
  choice: { readonly slot: SlotId; readonly grip: Grip; readonly chord?: string },
): void {
  const edit = { kind: "grip", slot: choice.slot, grip: printGrip(choice.grip) } as const;
  applyLaneEdits(doc, [edit], () => choice.chord);
}

/** Leaves a slot without a grip. */
export function clearGrip(doc: Y.Doc, slot: SlotId): void {
  applyLaneEdits(doc, [{ kind: "grip", slot, grip: undefined }]);
}

/** Tunes the lane's guitar; grips keep their frets. */
export function setTuning(doc: Y.Doc, tuning: Tuning): void {
  assert(isTuning(tuning), "six open strings of a guitar");
  setMeta(doc, "tuning", [...tuning]);
}

/** Puts the capo on a fret; 0 takes it off. */
export function setCapo(doc: Y.Doc, capo: Fret): void {
  assert(isWhole(capo, 0, capoMax), "a capo on one of the first frets");
  setMeta(doc, "capo", capo);
}

/** Says from where the lane's frets are counted. */
export function setFretsFrom(doc: Y.Doc, from: "nut" | "capo"): void {
  setMeta(doc, "fretsFrom", from);
}

/** Says how many frets the neck has. */
export function setLastFret(doc: Y.Doc, lastFret: Fret): void {
  assert(isWhole(lastFret, lastFretMin, fretMax), "a neck of 12 to 24 frets");
  setMeta(doc, "lastFret", lastFret);
}

/** Sets the length of the open strings, in millimetres. */
export function setScaleLength(doc: Y.Doc, scaleLength: number): void {
  assert(isScaleLength(scaleLength), "the scale length of a guitar");
  setMeta(doc, "scaleLength", scaleLength);
}

/** Rests in a bar, or plays again. */
export function layOut(doc: Y.Doc, change: { readonly bar: BarId; readonly rest: boolean }): void {
  applyLaneEdits(doc, [{ kind: "lay-out", ...change }]);
}

/** Writes a short text on a bar; an empty one takes it away. */
export function setMark(doc: Y.Doc, mark: { readonly bar: BarId; readonly text: string }): void {
  applyLaneEdits(doc, [{ kind: "mark", ...mark }]);
}

function setMeta(doc: Y.Doc, name: string, value: unknown): void {
  editOwn(doc, () => {
    laneLayout(doc).meta.set(name, value);
  });
}
