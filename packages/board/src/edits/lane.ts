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
import { isContentId } from "../ids.ts";
import { isScaleLength, isTuning } from "../lane-state.ts";
import { laneLayout } from "../layout.ts";
import { capoMax, lastFretMin, markMax } from "../limits.ts";
import { isOneLine } from "../one-line.ts";

/** Chooses the grip of a slot. */
export function placeGrip(
  doc: Y.Doc,
  choice: { readonly slot: SlotId; readonly grip: Grip },
): void {
  assert(isContentId(choice.slot), "a grip needs a slot");
  editLane(doc, ({ grips }) => {
    grips.set(choice.slot, printGrip(choice.grip));
  });
}

/** Leaves a slot without a grip. */
export function clearGrip(doc: Y.Doc, slot: SlotId): void {
  editLane(doc, ({ grips }) => grips.delete(slot));
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
  assert(isContentId(change.bar), "a bar to lay out in");
  editLane(doc, ({ layOuts }) => {
    if (change.rest) layOuts.set(change.bar, true);
    else layOuts.delete(change.bar);
  });
}

/** Writes a short text on a bar; an empty one takes it away. */
export function setMark(doc: Y.Doc, mark: { readonly bar: BarId; readonly text: string }): void {
  assert(isContentId(mark.bar), "a bar to mark");
  assert(isOneLine(mark.text, markMax), "a mark is one line");
  editLane(doc, ({ marks }) => {
    if (mark.text === "") marks.delete(mark.bar);
    else marks.set(mark.bar, mark.text);
  });
}

function setMeta(doc: Y.Doc, name: string, value: unknown): void {
  editLane(doc, ({ meta }) => {
    meta.set(name, value);
  });
}

function editLane(doc: Y.Doc, change: (lane: ReturnType<typeof laneLayout>) => void): void {
  editOwn(doc, () => change(laneLayout(doc)));
}
