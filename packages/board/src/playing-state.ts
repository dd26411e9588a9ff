/** Strum patterns, fills and dynamics of a lane once the repairs B17 to B19 of SPEC.md are made. */
import { stringNumbers } from "@halflap/theory/tuning";
import { fret, fretMax, ticks } from "@halflap/theory/units";
import type { FormEntryId, Lane, Strumming } from "./board.ts";
import type { ChartIds } from "./chart-ids.ts";
import { fieldOf, isWhole } from "./decode.ts";
import {
  barId,
  type FillId,
  fillId,
  formEntryId,
  isContentId,
  isStoredId,
  type SectionId,
  type StrumId,
  sectionId,
  strumId,
} from "./ids.ts";
import { keptReading } from "./kept-reading.ts";
import { inPlaces, keysInOrder, type LaneStore, type Table } from "./lane-store.ts";
import { bendMax, bendMin, fillNotesMax, fillsMax, nameMax, spanMax, strumsMax } from "./limits.ts";
import { oneLine } from "./one-line.ts";
import { dynamics, type Fill, type FillNote, fillWays, type Strum } from "./playing.ts";
import { parseStrumText, stepLengths } from "./strum-text.ts";

export type Playing = Pick<
  Lane,
  "strums" | "strumming" | "fills" | "dynamics" | "palmMutes" | "letRings" | "restingPasses"
>;

/** What a lane's hands do, from any state of its tables. */
export function readPlaying(store: LaneStore, chart: ChartIds): Playing {
  const strums = readStrums(store.strums);
  return {
    strums,
    strumming: readStrumming(store, chart, strums),
    fills: readFills(store.fills, chart),
    dynamics: valuesOf(store.dynamics, chart.bars, barId, (value) =>
      dynamics.find((known) => known === value),
    ),
    palmMutes: marked(store.palmMutes, chart.bars, barId),
    letRings: marked(store.letRings, chart.bars, barId),
    restingPasses: marked<FormEntryId>(store.restingPasses, chart.entries, formEntryId),
  };
}

/** B17: a strum pattern as far as it can be read: without steps of a known length it is none. */
export function readStrum(id: StrumId, value: unknown): Strum | undefined {
  const text = fieldOf(value, "steps");
  const steps = typeof text === "string" ? parseStrumText(text) : undefined;
  const step = stepLengths.find((known) => known === fieldOf(value, "step"));
  if (steps === undefined || !steps.ok || step === undefined) return undefined;
  const feel = fieldOf(value, "feel");
  return {
    id,
    name: oneLine(fieldOf(value, "name"), nameMax) ?? "",
    step,
    feel: feel === "straight" || feel === "swing" ? feel : "board",
    palmMute: fieldOf(value, "palmMute") === true,
    steps: steps.value,
  };
}

/** B18: a fill as far as it can be read: without a bar and a length it is none. */
export function readFill(id: FillId, value: unknown): Fill | undefined {
  const bar = fieldOf(value, "bar");
  const start = fieldOf(value, "start");
  const length = fieldOf(value, "length");
  const notes = fieldOf(value, "notes");
  if (!isContentId(bar) || !isWhole(start, 0, spanMax) || !isWhole(length, 1, spanMax)) {
    return undefined;
  }
  const read = Array.isArray(notes) ? notes.slice(0, fillNotesMax).map(readNote) : [];
  return {
    id,
    bar: barId(bar),
    start: ticks(start),
    length: ticks(length),
    kind: fieldOf(value, "kind") === "line" ? "line" : "fill",
    together: fieldOf(value, "together") === true,
    notes: soundNotes(
      read.flatMap((note) => note ?? []),
      length,
    ),
  };
}

/**
 * B18: the notes that lie inside a fill, by start and then by string from the lowest; of two at
 * once on one string the first.
 */
function soundNotes(notes: readonly FillNote[], length: number): readonly FillNote[] {
  const ends = new Map<FillNote["string"], number>();
  return [...notes]
    .sort((a, b) => a.start - b.start || b.string - a.string)
    .filter((note) => {
      const end = note.start + note.length;
      if (end > length || note.start < (ends.get(note.string) ?? 0)) return false;
      ends.set(note.string, end);
      return true;
    });
}

function readNote(value: unknown): FillNote | undefined {
  const [start, length] = [fieldOf(value, "start"), fieldOf(value, "length")];
  const string = stringNumbers.find((known) => known === fieldOf(value, "string"));
  const typed = fieldOf(value, "fret");
  const way = fillWays.find((known) => known === fieldOf(value, "way"));
  const bend = way === "bend" ? fieldOf(value, "bend") : 0;
  if (!isWhole(start, 0, spanMax) || !isWhole(length, 1, spanMax)) return undefined;
  if (string === undefined || !isWhole(typed, 0, fretMax) || way === undefined) return undefined;
  if (bend !== 0 && !isBend(bend)) return undefined;
  if (way === "bend" && bend === 0) return undefined;
  const letRing = fieldOf(value, "letRing") === true;
  return {
    ...{ start: ticks(start), length: ticks(length), string, fret: fret(typed), way },
    ...{ bend, letRing },
  };
}

/** Whether a value is how far a string can be bent: whole quarter tones. */
export function isBend(value: unknown): value is number {
  return isWhole(Number(value) * 2, bendMin * 2, bendMax * 2) && typeof value === "number";
}

const keptStrum = keptReading((key, value) => readStrum(strumId(key), value));
const keptFill = keptReading((key, value) => readFill(fillId(key), value));

function readStrums(stored: Table): ReadonlyMap<StrumId, Strum> {
  const strums = new Map<StrumId, Strum>();
  for (const key of [...stored.keys()].filter(isStoredId).sort()) {
    const strum = keptStrum(key, stored.get(key));
    if (strum !== undefined && strums.size < strumsMax) strums.set(strum.id, strum);
  }
  return strums;
}

/** B17: a pattern that is not in the library counts as none. */
function readStrumming(
  store: LaneStore,
  chart: ChartIds,
  strums: ReadonlyMap<StrumId, Strum>,
): Strumming {
  const known = (value: unknown) =>
    isStoredId(value) && strums.has(strumId(value)) ? strumId(value) : undefined;
  return {
    lane: known(store.meta.get("strumLane")),
    sections: valuesOf(store.strumSections, chart.sections, sectionIn, known),
    bars: valuesOf(store.strumBars, chart.bars, barId, known),
    passes: valuesOf(store.strumPasses, chart.entries, formEntryId, known),
  };
}

function sectionIn(key: string): SectionId | undefined {
  return isStoredId(key) ? sectionId(key) : undefined;
}

function readFills(stored: Table, chart: ChartIds): ReadonlyMap<FillId, Fill> {
  const placed = inPlaces(storedFills(stored), chart, ({ start }) => start, fillsMax);
  return new Map(placed.map((fill) => [fill.id, fill]));
}

/** The fills of a lane that can be read, by id, wherever they stand. */
export function storedFills(stored: Table): readonly Fill[] {
  return [...stored.keys()]
    .filter(isStoredId)
    .sort()
    .flatMap((key) => keptFill(key, stored.get(key)) ?? []);
}

/** B19: a table of one kind of value, those that can't be read left out. */
export function valuesOf<Id extends string, T>(
  stored: Table,
  chart: readonly string[],
  idOf: (key: string) => Id | undefined,
  read: (value: unknown) => T | undefined,
): ReadonlyMap<Id, T> {
  const values = new Map<Id, T>();
  for (const key of keysInOrder(stored, chart)) {
    const [id, value] = [idOf(key), read(stored.get(key))];
    if (id !== undefined && value !== undefined) values.set(id, value);
  }
  return values;
}

/** B19: the ids that a table says `true` of. */
export function marked<Id extends string>(
  stored: Table,
  chart: readonly string[],
  idOf: (key: string) => Id | undefined,
): ReadonlySet<Id> {
  return new Set(
    valuesOf(stored, chart, idOf, (value) => (value === true ? true : undefined)).keys(),
  );
}
