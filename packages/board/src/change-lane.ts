/** One change to a lane's tables, whether they are a document's or plain ones. */
import { assert } from "@halflap/theory/units";
import type { FormEntryId, SlotId } from "./board.ts";
import { otherName } from "./first-passes.ts";
import type { StrumId } from "./ids.ts";
import { laneEditCopy } from "./lane-edit-copy.ts";
import type { LaneStore, Table } from "./lane-store.ts";
import { knownFields, setKeeping } from "./newer-fields.ts";
import { fillCopy, laneEditShape, strumCopy } from "./playing-shape.ts";
import type { LaneEdit, StrumPlace } from "./proposal.ts";

/** The chord text that stands in a slot; undefined when it is not known. */
export type ChordOf = (slot: SlotId) => string | undefined;

/**
 * Makes the change. A grip is stored with the chord it was chosen for; a strum pattern that goes
 * takes along where it was set. A change that could not be stored is a bug.
 */
export function changeLane(lane: LaneStore, edit: LaneEdit, chordOf: ChordOf): void {
  const copy = laneEditShape(laneEditCopy(edit), "");
  assert(copy.ok, "a change that can be stored");
  switch (edit.kind) {
    case "grip":
      setOrDelete(lane.grips, edit.slot, edit.grip);
      setOrDelete(
        lane.chosenFor,
        edit.slot,
        edit.grip === undefined ? undefined : chordOf(edit.slot) || undefined,
      );
      break;
    case "lay-out":
      setOrDelete(lane.layOuts, edit.bar, edit.rest || undefined);
      break;
    case "strum":
      setKeeping(lane.strums, edit.strum.id, strumCopy(edit.strum), knownFields.strums);
      break;
    case "strum-gone":
      removeStrum(lane, edit.strum);
      break;
    case "strum-at":
      setStrum(lane, edit.place, edit.strum);
      break;
    case "fill":
      setKeeping(lane.fills, edit.fill.id, fillCopy(edit.fill), knownFields.fills);
      break;
    case "fill-gone":
      lane.fills.delete(edit.fill);
      break;
    case "dynamic":
      setOrDelete(lane.dynamics, edit.bar, edit.dynamic);
      break;
    case "palm-mute":
      setOrDelete(lane.palmMutes, edit.bar, edit.on || undefined);
      break;
    case "let-ring":
      setOrDelete(lane.letRings, edit.bar, edit.on || undefined);
      break;
    case "rest-pass":
      setPass(lane.restingPasses, edit.entry, edit.rest || undefined);
      break;
    case "mark":
      setOrDelete(lane.marks, edit.bar, edit.text || undefined);
      break;
    case "capo":
      lane.meta.set("capo", edit.capo);
      break;
    case "lock":
      setOrDelete(lane.lockedSlots, edit.slot, edit.on || undefined);
      break;
  }
}

function setStrum(lane: LaneStore, place: StrumPlace, strum: StrumId | undefined): void {
  switch (place.kind) {
    case "lane":
      setOrDelete(lane.meta, "strumLane", strum);
      break;
    case "section":
      setOrDelete(lane.strumSections, place.section, strum);
      break;
    case "bar":
      setOrDelete(lane.strumBars, place.bar, strum);
      break;
    case "pass":
      setPass(lane.strumPasses, place.entry, strum);
      break;
  }
}

function removeStrum(lane: LaneStore, strum: StrumId): void {
  lane.strums.delete(strum);
  if (lane.meta.get("strumLane") === strum) lane.meta.delete("strumLane");
  for (const table of [lane.strumSections, lane.strumBars, lane.strumPasses]) {
    for (const key of [...table.keys()]) if (table.get(key) === strum) table.delete(key);
  }
}

/** What was said of the pass under its other name counts no more. */
function setPass(table: Table, entry: FormEntryId, value: unknown): void {
  const other = otherName(entry);
  if (other !== undefined) table.delete(other);
  setOrDelete(table, entry, value);
}

function setOrDelete(table: Table, key: string, value: unknown): void {
  if (value === undefined) table.delete(key);
  else table.set(key, value);
}
