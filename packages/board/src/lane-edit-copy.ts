/** Changes to a lane as plain values for documents and copies, and back. */
import { assert, fret } from "@halflap/theory/units";
import { barId, fillId, formEntryId, sectionId, slotId, strumId } from "./ids.ts";
import { fillCopy, type LaneEditCopy, type StrumPlaceCopy, strumCopy } from "./playing-shape.ts";
import { readFill, readStrum } from "./playing-state.ts";
import type { LaneEdit, StrumPlace } from "./proposal.ts";

/** The change as it is stored: without what it does not say. */
export function laneEditCopy(edit: LaneEdit): LaneEditCopy {
  switch (edit.kind) {
    case "grip": {
      const { kind, slot, grip } = edit;
      return grip === undefined ? { kind, slot } : { kind, slot, grip };
    }
    case "strum":
      return { kind: edit.kind, id: edit.strum.id, strum: strumCopy(edit.strum) };
    case "strum-at": {
      const { kind, strum } = edit;
      const place = placeCopy(edit.place);
      return strum === undefined ? { kind, place } : { kind, place, strum };
    }
    case "fill":
      return { kind: edit.kind, id: edit.fill.id, fill: fillCopy(edit.fill) };
    case "dynamic": {
      const { kind, bar, dynamic } = edit;
      return dynamic === undefined ? { kind, bar } : { kind, bar, dynamic };
    }
    default:
      return edit;
  }
}

/** The change of a decoded copy. */
export function laneEditOf(copy: LaneEditCopy): LaneEdit {
  switch (copy.kind) {
    case "grip":
      return { kind: copy.kind, slot: slotId(copy.slot), grip: copy.grip };
    case "strum": {
      const strum = readStrum(strumId(copy.id), copy.strum);
      assert(strum !== undefined, "a decoded strum pattern can be read");
      return { kind: copy.kind, strum };
    }
    case "strum-gone":
      return { kind: copy.kind, strum: strumId(copy.strum) };
    case "strum-at": {
      const strum = copy.strum === undefined ? undefined : strumId(copy.strum);
      return { kind: copy.kind, place: placeOf(copy.place), strum };
    }
    case "fill": {
      const fill = readFill(fillId(copy.id), copy.fill);
      assert(fill !== undefined, "a decoded fill can be read");
      return { kind: copy.kind, fill };
    }
    case "fill-gone":
      return { kind: copy.kind, fill: fillId(copy.fill) };
    case "dynamic":
      return { kind: copy.kind, bar: barId(copy.bar), dynamic: copy.dynamic };
    case "rest-pass":
      return { ...copy, entry: formEntryId(copy.entry) };
    case "capo":
      return { kind: copy.kind, capo: fret(copy.capo) };
    case "lock":
      return { ...copy, slot: slotId(copy.slot) };
    default:
      return { ...copy, bar: barId(copy.bar) };
  }
}

function placeCopy(place: StrumPlace): StrumPlaceCopy {
  switch (place.kind) {
    case "lane":
      return place;
    case "section":
      return { kind: place.kind, at: place.section };
    case "bar":
      return { kind: place.kind, at: place.bar };
    case "pass":
      return { kind: place.kind, at: place.entry };
  }
}

function placeOf({ kind, at = "" }: StrumPlaceCopy): StrumPlace {
  switch (kind) {
    case "lane":
      return { kind };
    case "section":
      return { kind, section: sectionId(at) };
    case "bar":
      return { kind, bar: barId(at) };
    case "pass":
      return { kind, entry: formEntryId(at) };
  }
}
