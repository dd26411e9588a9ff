/** What a player may do to the chart, as edits on its document. */
import type { Board } from "@halflap/board/board";
import * as edits from "@halflap/board/edits/chart";
import * as formEdits from "@halflap/board/edits/form-change";
import * as silences from "@halflap/board/edits/silences";
import * as singing from "@halflap/board/edits/singing";
import { barId, sectionId, silenceId, slotId } from "@halflap/board/ids";
import { endingMax, nameMax, reasonMax, tempoMax, tempoMin, titleMax } from "@halflap/board/limits";
import { barLengthOf } from "@halflap/board/meter";
import { parseBarText } from "@halflap/board/one-bar";
import type * as Y from "yjs";
import { makeId } from "./own-id.ts";
import type { ChartIntents } from "./session.ts";
import { shortLine } from "./short-line.ts";

/**
 * The chart's commands, on the document as it is when each is called; inert while `may` says no.
 */
export function makeChartIntents(
  document: () => Y.Doc,
  board: () => Board,
  may: () => boolean,
): ChartIntents {
  const edit = (change: (doc: Y.Doc) => void) => {
    if (may()) change(document());
  };
  return {
    ...settings(edit),
    ...sections(edit),
    addBar(section, index, text) {
      const id = barId(makeId());
      const { meter } = board();
      const read = parseBarText(text, barLengthOf(meter), meter);
      const slots = read.ok ? read.value.map((slot) => ({ ...slot, id: slotId(makeId()) })) : [];
      edit((doc) => edits.addBar(doc, { id, section, index, slots }));
      return id;
    },
    writeBar(bar, text) {
      const read = parseBarText(text, bar.length, board().meter);
      if (!read.ok) return { problem: read.error.words };
      edit((doc) => edits.writeBar(doc, { bar, slots: read.value, makeId }));
      return undefined;
    },
    setBarLength: (bar, length) => edit((doc) => edits.setBarLength(doc, { bar, length })),
    moveBar: (bar, section, index) => edit((doc) => edits.moveBar(doc, { bar, section, index })),
    removeBar: (bar) => edit((doc) => edits.removeBar(doc, bar)),
    bringBackBar: (bar, section, index) =>
      edit((doc) => edits.bringBackBar(doc, { bar, section, index })),
    bringBackSlot: (slot, bar, at) => edit((doc) => edits.bringBackSlot(doc, { slot, bar, at })),
    setAims: (bar, aims) => edit((doc) => singing.setAims(doc, { bar, aims })),
    setRounds: (bar, rounds) => edit((doc) => singing.setRounds(doc, { bar, rounds })),
    setForm: (form) => edit((doc) => formEdits.setForm(doc, { form, makeId })),
    silence: (rule, bars, reason) =>
      edit((doc) =>
        silences.silence(doc, {
          id: silenceId(makeId()),
          rule,
          bars,
          reason: shortLine(reason, reasonMax),
        }),
      ),
    unsilence: (rule, bars) => edit((doc) => silences.unsilence(doc, { rule, bars })),
  };
}

type Edit = (change: (doc: Y.Doc) => void) => void;
type Setting =
  | "setTitle"
  | "setKey"
  | "setTempo"
  | "setMeter"
  | "setFeel"
  | "setHasBass"
  | "setCountIn"
  | "setEnding"
  | "setBlueNotes"
  | "setDistorted"
  | "setLimit";

function settings(edit: Edit): Pick<ChartIntents, Setting> {
  return {
    setTitle: (title) => edit((doc) => edits.setTitle(doc, shortLine(title, titleMax))),
    setKey: (key) => edit((doc) => edits.setKey(doc, key)),
    setTempo(tempo) {
      const playable = Math.min(tempoMax, Math.max(tempoMin, Math.round(tempo)));
      edit((doc) => edits.setTempo(doc, playable));
    },
    setMeter: (meter) => edit((doc) => edits.setMeter(doc, meter)),
    setFeel: (feel) => edit((doc) => edits.setFeel(doc, feel)),
    setHasBass: (hasBass) => edit((doc) => edits.setHasBass(doc, hasBass)),
    setCountIn: (bars) => edit((doc) => edits.setCountIn(doc, bars)),
    setEnding: (words) => edit((doc) => edits.setEnding(doc, shortLine(words, endingMax))),
    setBlueNotes: (on) => edit((doc) => edits.setBlueNotes(doc, on)),
    setDistorted: (on) => edit((doc) => edits.setDistorted(doc, on)),
    setLimit: (name, value) => edit((doc) => edits.setLimit(doc, name, value)),
  };
}

function sections(
  edit: Edit,
): Pick<
  ChartIntents,
  "addSection" | "renameSection" | "moveSection" | "removeSection" | "borrowSection"
> {
  return {
    addSection(name, after) {
      const id = sectionId(makeId());
      edit((doc) => edits.addSection(doc, { id, name: shortLine(name, nameMax), after }));
      return id;
    },
    renameSection: (section, name) =>
      edit((doc) => edits.renameSection(doc, section, shortLine(name, nameMax))),
    moveSection: (section, index) => edit((doc) => edits.moveSection(doc, { section, index })),
    removeSection: (section) => edit((doc) => edits.removeSection(doc, section)),
    borrowSection: (section, from) => edit((doc) => edits.borrowSection(doc, { section, from })),
  };
}
