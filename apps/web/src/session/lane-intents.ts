/** What the owner of a lane may do to it, as edits on the lane's document. */
import * as edits from "@halflap/board/edits/lane";
import { markMax } from "@halflap/board/limits";
import type * as Y from "yjs";
import type { LaneIntents } from "./session.ts";

/** The lane's commands on one document. */
export function makeLaneIntents(doc: Y.Doc): LaneIntents {
  return {
    placeGrip: (slot, grip) => edits.placeGrip(doc, { slot, grip }),
    clearGrip: (slot) => edits.clearGrip(doc, slot),
    setTuning: (tuning) => edits.setTuning(doc, tuning),
    setCapo: (capo) => edits.setCapo(doc, capo),
    setFretsFrom: (from) => edits.setFretsFrom(doc, from),
    layOut: (bar, rest) => edits.layOut(doc, { bar, rest }),
    setMark: (bar, text) =>
      edits.setMark(doc, { bar, text: text.replace(/\s+/g, " ").trim().slice(0, markMax) }),
  };
}
