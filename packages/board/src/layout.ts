/** How the documents are laid out: the root types of each, and the version of that layout. */
import * as Y from "yjs";
import type { LaneStore } from "./lane-store.ts";

/** Raised by one with every migration. */
export const schemaVersion = 2;

/**
 * The board document. Order lies apart from content, and every value is plain and small, so that
 * concurrent edits of different fields all stand.
 */
export function chartLayout(doc: Y.Doc) {
  return {
    /**
     * schema, title, key, tempo, meter, feel, hasBass, countIn, ending, blueNotes, distorted
     */
    meta: doc.getMap<unknown>("meta"),
    /** section ids */
    sectionOrder: doc.getArray<unknown>("sectionOrder"),
    /** section id -> name */
    sectionNames: doc.getMap<unknown>("sectionNames"),
    /** section id -> id of the section whose chords it plays */
    borrows: doc.getMap<unknown>("borrows"),
    /** section id -> array of bar ids, made once with the section */
    barOrder: doc.getMap<unknown>("barOrder"),
    /** bar id -> ticks, only where the bar differs from the meter; null = noted, no length */
    barLengths: doc.getMap<unknown>("barLengths"),
    /** slot id -> chord as typed; a slot exists as long as it stands here */
    chords: doc.getMap<unknown>("chords"),
    /** slot id -> { bar, at } */
    places: doc.getMap<unknown>("places"),
    /** slot id -> { bar, at }, where it stood before it was taken out */
    formerPlaces: doc.getMap<unknown>("formerPlaces"),
    /** { id, section, times } */
    form: doc.getArray<unknown>("form"),
    /** silence id -> { rule, bars, reason } */
    silences: doc.getMap<unknown>("silences"),
    /** voice id -> { name, lane?, type?, low?, high? } */
    voices: doc.getMap<unknown>("voices"),
    /** phrase id -> { bar, start, length, melody: [{ start, length, pitch }] } */
    phrases: doc.getMap<unknown>("phrases"),
    /** gap owner id -> { bar, at, owner } */
    gapOwners: doc.getMap<unknown>("gapOwners"),
    /** form entry id -> array of voice id or null, first round first */
    singers: doc.getMap<unknown>("singers"),
    /** bar id -> array of what the bar is meant to be */
    aims: doc.getMap<unknown>("aims"),
    /** bar id -> array of the rounds in which it is played, only where that is not all */
    barRounds: doc.getMap<unknown>("barRounds"),
    /** name of a limit of the checker -> number */
    limits: doc.getMap<unknown>("limits"),
    /** proposal id -> { lane, from?, words, bars, edits, chords? } */
    proposals: doc.getMap<unknown>("proposals"),
  };
}

export type ChartLayout = ReturnType<typeof chartLayout>;

/** A lane document; bars and slots are named by their id on the board, stored or derived. */
export function laneLayout(doc: Y.Doc) {
  return {
    /** schema, tuning, capo, fretsFrom, lastFret, scaleLength, strumLane */
    meta: doc.getMap<unknown>("meta"),
    /** slot id -> "x-x-3-2-4-x" */
    grips: doc.getMap<unknown>("grips"),
    /** bar id -> true */
    layOuts: doc.getMap<unknown>("layOuts"),
    /** bar id -> text */
    marks: doc.getMap<unknown>("marks"),
    /** slot id -> the chord text its grip was chosen for */
    chosenFor: doc.getMap<unknown>("chosenFor"),
    /** strum id -> { name, step, feel, palmMute, steps: "D.DU.UDU" } */
    strums: doc.getMap<unknown>("strums"),
    /** section id -> strum id */
    strumSections: doc.getMap<unknown>("strumSections"),
    /** bar id -> strum id */
    strumBars: doc.getMap<unknown>("strumBars"),
    /** form entry id -> strum id */
    strumPasses: doc.getMap<unknown>("strumPasses"),
    /** fill id -> { bar, start, length, kind, together, notes } */
    fills: doc.getMap<unknown>("fills"),
    /** bar id -> "mf" */
    dynamics: doc.getMap<unknown>("dynamics"),
    /** bar id -> true */
    palmMutes: doc.getMap<unknown>("palmMutes"),
    /** bar id -> true */
    letRings: doc.getMap<unknown>("letRings"),
    /** form entry id -> true */
    restingPasses: doc.getMap<unknown>("restingPasses"),
    /** name of a wish -> what is wished, only where that is not the usual */
    wishes: doc.getMap<unknown>("wishes"),
    /** grip "x-x-3-2-4-x" -> true */
    likedGrips: doc.getMap<unknown>("likedGrips"),
    /** grip -> true */
    neverGrips: doc.getMap<unknown>("neverGrips"),
    /** slot id -> true */
    lockedSlots: doc.getMap<unknown>("lockedSlots"),
  } satisfies LaneStore;
}

/** The talk document, written by the server alone. */
export function talkLayout(doc: Y.Doc) {
  return {
    /** member id -> { name, role } */
    members: doc.getMap<unknown>("members"),
    /** lane id -> member id */
    owners: doc.getMap<unknown>("owners"),
    /** take id -> { from, at, head } */
    takes: doc.getMap<unknown>("takes"),
  };
}

/** The ids of an order as they count: the first time each stands, whatever else was put between. */
export function idsInOrder(order: unknown, isId: (value: unknown) => value is string): string[] {
  if (!(order instanceof Y.Array)) return [];
  return [...new Set(order.toArray().filter(isId))];
}
