/** What the owner of a lane may do to it, as edits on the lane's document. */
import type { Board, SlotId } from "@halflap/board/board";
import * as edits from "@halflap/board/edits/lane";
import { applyLaneEdits } from "@halflap/board/edits/lane-edits";
import { setWishes } from "@halflap/board/edits/wishes";
import { markMax } from "@halflap/board/limits";
import { printGrip } from "@halflap/theory/grip";
import type * as Y from "yjs";
import type { LaneIntents } from "./session.ts";
import { shortLine } from "./short-line.ts";

/** The lane's commands on one document; a grip is kept with the chord it was chosen for. */
export function makeLaneIntents(doc: Y.Doc, board: () => Board): LaneIntents {
  const chordOf = (slot: SlotId) => chordAt(board(), slot);
  const edit: LaneIntents["edit"] = (changes, chosenFor) =>
    applyLaneEdits(doc, changes, (slot) => chosenFor?.get(slot) ?? chordOf(slot));
  return {
    edit,
    setWishes: (change) => setWishes(doc, change),
    placeGrip: (slot, grip) => edit([{ kind: "grip", slot, grip: printGrip(grip) }]),
    clearGrip: (slot) => edits.clearGrip(doc, slot),
    setTuning: (tuning) => edits.setTuning(doc, tuning),
    setCapo: (capo) => edits.setCapo(doc, capo),
    setFretsFrom: (from) => edits.setFretsFrom(doc, from),
    layOut: (bar, rest) => edits.layOut(doc, { bar, rest }),
    setMark: (bar, text) => edits.setMark(doc, { bar, text: shortLine(text, markMax) }),
  };
}

/** The text of the chord in a slot; undefined where there is no such slot. */
export function chordAt(board: Board, slot: SlotId): string | undefined {
  for (const section of board.sections) {
    for (const bar of section.bars) {
      const found = bar.slots.find((each) => each.id === slot);
      if (found !== undefined) return found.text;
    }
  }
  return undefined;
}
