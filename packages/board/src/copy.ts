/**
 * The complete JSON copy of a board: its shape, version 2. Nothing of the four documents' music is
 * left out.
 */
import type { Reading } from "@halflap/theory/chord";
import { decodeGrip } from "@halflap/theory/grip";
import { printKey } from "@halflap/theory/key";
import { assert, type Ticks } from "@halflap/theory/units";
import * as Y from "yjs";
import { type BarId, laneIds } from "./board.ts";
import { type ChartState, type PlacedSlot, readChartState } from "./chart-state.ts";
import type * as shape from "./copy-shape.ts";
import { brokenReference, copyShape } from "./copy-shape.ts";
import { type Fault, faulty } from "./decode.ts";
import { type BoardDocuments, laneDocument } from "./documents.ts";
import { droppedPart } from "./dropped-parts.ts";
import { withFirstPasses } from "./first-passes.ts";
import type * as laneCopy from "./lane-copy.ts";
import { fillLaneStore, laneCopyOf } from "./lane-copy.ts";
import { readLaneState } from "./lane-state.ts";
import { chartLayout, laneLayout, schemaVersion } from "./layout.ts";
import { setAsideMax } from "./limits.ts";
import { printMeter } from "./meter.ts";
import { upgradedCopy } from "./migrate.ts";
import { readProposals } from "./proposal-state.ts";
import { barsApart, noteBar } from "./set-aside.ts";
import { readSong } from "./singing-state.ts";
import { songCopy } from "./song-shape.ts";

export const copyFormat = "halflap-board";
export const copyVersion = 2;

const songTables = [
  "voices",
  "phrases",
  "gapOwners",
  "singers",
  "aims",
  "barRounds",
  "limits",
  "proposals",
] as const;

// The shape and its decoders stand together in copy-shape.ts; these are its names for everybody.
export type SlotCopy = shape.SlotCopy;
export type BarCopy = shape.BarCopy;
export type SectionCopy = shape.SectionCopy;
export type LaneCopy = laneCopy.LaneCopy;
export type BoardCopy = shape.BoardCopy;

/**
 * The copy in a value from outside (JSON already parsed), or the first thing that is wrong with it.
 * An older version is brought up to date first; a newer one is refused.
 */
export function decodeCopy(value: unknown): Reading<BoardCopy, Fault> {
  const current = upgradedCopy(value, copyVersion);
  if (!current.ok) return current;
  const copy = copyShape(copyFormat, copyVersion)(current.value, "");
  if (!copy.ok) return copy;
  const broken = brokenReference(copy.value) ?? droppedPart(copy.value);
  return broken === undefined ? copy : faulty(broken.path, broken.words);
}

/** The copy of a board as it stands. Members and lane owners belong to a band, not to the music. */
export function copyOf(documents: BoardDocuments): BoardCopy {
  const chart = readChartState(documents.board);
  const bars = chart.sections.flatMap((section) => section.bars);
  const ids = {
    sections: chart.sections.map(({ id }) => id),
    entries: chart.form.map(({ id }) => id),
    bars,
    // The copy keeps what starts beyond the end of its bar.
    lengths: new Map<string, Ticks>(),
    slots: bars.flatMap((bar) => (chart.placed.get(bar) ?? []).map(({ id }) => id)),
  };
  const tables = chartLayout(documents.board);
  const lane = (doc: Y.Doc) =>
    laneCopyOf(readLaneState(withFirstPasses(laneLayout(doc), chart.form), ids, decodeGrip));
  const proposals = readProposals(tables.proposals, []);
  return {
    format: copyFormat,
    version: copyVersion,
    ...chart.settings,
    sections: chart.sections.map(({ id, name, borrows, bars }) => ({
      id,
      name,
      ...(borrows === undefined ? {} : { borrows }),
      bars: bars.map((bar) => barCopy(chart, bar)),
    })),
    form: chart.form.map(({ id, section, times }) => ({ id, section, times })),
    silences: chart.silences,
    setAside: {
      bars: barsApart(tables, chart, bars).map((bar) => barCopy(chart, bar)),
      slots: chart.loose.slice(0, setAsideMax).map(({ id, text, was }) => ({
        id,
        chord: text,
        ...(was === undefined ? {} : { was }),
      })),
    },
    ...songCopy({ ...readSong(tables, ids), proposals }, chart),
    lanes: { upper: lane(documents["lane-upper"]), lower: lane(documents["lane-lower"]) },
  };
}

/** Writes a copy into documents that are still empty: the board and both lanes; never `talk`. */
export function fillDocuments(documents: BoardDocuments, copy: BoardCopy): void {
  documents.board.transact(() => fillChart(documents.board, copy));
  for (const lane of laneIds) {
    const doc = documents[laneDocument(lane)];
    doc.transact(() => fillLane(doc, copy.lanes[lane]));
  }
}

function barCopy(chart: ChartState, bar: BarId): BarCopy {
  const length = chart.lengths.get(bar);
  const placed: readonly PlacedSlot[] = chart.placed.get(bar) ?? [];
  const slots = placed.slice(0, setAsideMax).map(({ id, at, text }) => ({ id, at, chord: text }));
  return length === undefined ? { id: bar, slots } : { id: bar, length, slots };
}

function fillChart(doc: Y.Doc, copy: BoardCopy): void {
  const layout = chartLayout(doc);
  assert(layout.meta.size === 0, "only an empty board document is filled");
  const { title, tempo, feel, hasBass, countIn, ending, blueNotes, distorted } = copy;
  const settings = { title, tempo, feel, hasBass, countIn, ending, blueNotes, distorted };
  const written = { key: printKey(copy.key), meter: printMeter(copy.meter) };
  const meta = { schema: schemaVersion, ...settings, ...written };
  for (const [name, value] of Object.entries(meta)) layout.meta.set(name, value);
  layout.sectionOrder.push(copy.sections.map(({ id }) => id));
  for (const { id, name, borrows, bars } of copy.sections) {
    layout.sectionNames.set(id, name);
    if (borrows !== undefined) layout.borrows.set(id, borrows);
    layout.barOrder.set(id, Y.Array.from(bars.map((bar) => bar.id)));
  }
  for (const bar of [...copy.sections.flatMap(({ bars }) => bars), ...copy.setAside.bars]) {
    if (bar.length !== undefined) layout.barLengths.set(bar.id, bar.length);
    for (const { id, at, chord } of bar.slots) {
      layout.chords.set(id, chord);
      layout.places.set(id, { bar: bar.id, at });
    }
  }
  for (const { id } of copy.setAside.bars) noteBar(layout, id);
  for (const { id, chord, was } of copy.setAside.slots) {
    layout.chords.set(id, chord);
    if (was !== undefined) layout.formerPlaces.set(id, was);
  }
  layout.form.push(copy.form.map(({ id, section, times }) => ({ id, section, times })));
  for (const { id, rule, bars, reason } of copy.silences) {
    layout.silences.set(id, { rule, bars: [...bars], reason });
  }
  for (const name of songTables) {
    for (const [id, value] of Object.entries(copy[name])) layout[name].set(id, value);
  }
}

function fillLane(doc: Y.Doc, copy: LaneCopy): void {
  const layout = laneLayout(doc);
  assert(layout.meta.size === 0, "only an empty lane document is filled");
  layout.meta.set("schema", schemaVersion);
  fillLaneStore(layout, copy);
}
