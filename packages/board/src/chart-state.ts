/**
 * The board document as it counts once the repairs B1 to B12 of SPEC.md are made: ids, texts and
 * places.
 */
import type { Key } from "@halflap/theory/key";
import { parseKey } from "@halflap/theory/key";
import { assert, type Ticks, ticks } from "@halflap/theory/units";
import type * as Y from "yjs";
import type { BarId, Board, FormEntry, SectionId, SetAside, Silence, SlotId } from "./board.ts";
import { fieldOf, isWhole } from "./decode.ts";
import { inherited } from "./first-passes.ts";
import {
  barId,
  formEntryId,
  isContentId,
  isStoredId,
  sectionId,
  silenceId,
  slotId,
} from "./ids.ts";
import { byId } from "./lane-store.ts";
import { type ChartLayout, chartLayout, idsInOrder } from "./layout.ts";
import {
  barsMax,
  chordTextMax,
  countInMax,
  endingMax,
  formEntriesMax,
  nameMax,
  reasonMax,
  ruleMax,
  sectionsMax,
  silencedBarsMax,
  silencesMax,
  tempoMax,
  tempoMin,
  timesMax,
} from "./limits.ts";
import { commonTime, isBarLength, parseMeter } from "./meter.ts";
import { oneLine } from "./one-line.ts";
import { readRounds, readSingers, readVoices, type Singers, singersOf } from "./singing-state.ts";
import { readTitle } from "./title.ts";

/** The key of a board that says nothing of it. */
export const plainKey: Key = cMajor();

export type Settings = Pick<
  Board,
  | "title"
  | "key"
  | "tempo"
  | "meter"
  | "feel"
  | "hasBass"
  | "countIn"
  | "ending"
  | "blueNotes"
  | "distorted"
>;

/** A slot as it was placed, whether or not it can stand there. */
export type PlacedSlot = { readonly id: SlotId; readonly at: number; readonly text: string };

/** A slot that was taken out, and where it stood, as far as that is known. */
export type LooseSlot = SetAside["slots"][number];

export type SectionState = {
  readonly id: SectionId;
  readonly name: string;
  readonly borrows: SectionId | undefined;
  /** Its own bars; at rest while it borrows. */
  readonly bars: readonly BarId[];
};

export type ChartState = {
  readonly settings: Settings;
  readonly sections: readonly SectionState[];
  /** Only where a bar differs from the meter. */
  readonly lengths: ReadonlyMap<BarId, Ticks>;
  /** By bar, also bars that stand nowhere; by start, then by id. */
  readonly placed: ReadonlyMap<BarId, readonly PlacedSlot[]>;
  /** Slots without a place, by id. */
  readonly loose: readonly LooseSlot[];
  /** As written; empty while no form was written. */
  readonly form: readonly FormEntry[];
  readonly silences: readonly Silence[];
  readonly singers: Singers;
  /** Only of bars that are not played in every round. */
  readonly rounds: ReadonlyMap<BarId, readonly number[]>;
};

/** Reads any state of a board document; what it can't use is left out by rule, never thrown on. */
export function readChartState(doc: Y.Doc): ChartState {
  const layout = chartLayout(doc);
  const sections = readSections(layout);
  const known = new Set<string>(sections.map((section) => section.id));
  const form = readForm(layout.form, known);
  const singers = readSingers(inherited(layout.singers, form), readVoices(layout.voices));
  return {
    settings: { title: readTitle(doc), ...readSettings(layout.meta) },
    sections,
    lengths: readLengths(layout.barLengths),
    ...readSlots(layout),
    form: form.map((entry) => ({
      ...entry,
      singers: singersOf(singers, entry.id, entry.times),
    })),
    silences: readSilences(layout.silences),
    singers,
    rounds: readRounds(layout.barRounds),
  };
}

/** B1: a setting that can't be used reads as the setting of a new board. */
function readSettings(meta: Y.Map<unknown>): Omit<Settings, "title"> {
  const key = parseKey(oneLine(meta.get("key"), nameMax) ?? "C");
  const tempo = meta.get("tempo");
  const feel = meta.get("feel");
  const countIn = meta.get("countIn");
  return {
    key: key.ok ? key.value : plainKey,
    tempo: typeof tempo === "number" && tempo >= tempoMin && tempo <= tempoMax ? tempo : 120,
    meter: parseMeter(oneLine(meta.get("meter"), nameMax) ?? "") ?? commonTime,
    feel: feel === "swing" || feel === "shuffle" ? feel : "straight",
    hasBass: meta.get("hasBass") !== false,
    countIn: isWhole(countIn, 0, countInMax) ? countIn : 1,
    ending: oneLine(meta.get("ending"), endingMax) ?? "",
    blueNotes: meta.get("blueNotes") === true,
    distorted: meta.get("distorted") === true,
  };
}

function readSections(layout: ChartLayout): SectionState[] {
  const ids = idsInOrder(layout.sectionOrder, isStoredId).slice(0, sectionsMax).map(sectionId);
  const borrows = sourcesOf(ids, layout.borrows);
  const standing = new Set<BarId>();
  const ownBars = new Map<SectionId, BarId[]>();
  // Bars that play are told apart before bars at rest, so that a bar in both plays (B4, B6).
  const playingFirst = [
    ...ids.filter((id) => !borrows.has(id)),
    ...ids.filter((id) => borrows.has(id)),
  ];
  for (const id of playingFirst) {
    const bars = idsInOrder(layout.barOrder.get(id), isStoredId)
      .map(barId)
      .filter((bar) => !standing.has(bar))
      .slice(0, barsMax - standing.size);
    for (const bar of bars) standing.add(bar);
    ownBars.set(id, bars);
  }
  return ids.map((id) => ({
    id,
    name: oneLine(layout.sectionNames.get(id), nameMax) ?? "Section",
    borrows: borrows.get(id),
    bars: ownBars.get(id) ?? [],
  }));
}

/**
 * B5: a section borrows from another that stands on the board, unless that leads back to itself.
 */
function sourcesOf(ids: readonly SectionId[], stored: Y.Map<unknown>): Map<SectionId, SectionId> {
  const wished = new Map<SectionId, SectionId>();
  for (const id of ids) {
    const from = ids.find((other) => other === stored.get(id));
    if (from !== undefined) wished.set(id, from);
  }
  const leadsBack = (id: SectionId): boolean => {
    const seen = new Set<SectionId>();
    let next = wished.get(id);
    while (next !== undefined && next !== id && !seen.has(next)) {
      seen.add(next);
      next = wished.get(next);
    }
    return next === id;
  };
  return new Map([...wished].filter(([id]) => !leadsBack(id)));
}

/** B9: a length that can't be written as a meter reads as the meter's. */
function readLengths(stored: Y.Map<unknown>): Map<BarId, Ticks> {
  const lengths = new Map<BarId, Ticks>();
  for (const [id, length] of stored.entries()) {
    if (isStoredId(id) && isBarLength(length)) lengths.set(barId(id), ticks(length));
  }
  return lengths;
}

function readSlots(layout: ChartLayout): Pick<ChartState, "placed" | "loose"> {
  const placed = new Map<BarId, PlacedSlot[]>();
  const loose: LooseSlot[] = [];
  for (const [key, stored] of layout.chords.entries()) {
    if (!isStoredId(key)) continue;
    const id = slotId(key);
    const text = oneLine(stored, chordTextMax) ?? "";
    const place = readPlace(layout.places.get(key));
    if (place === undefined) {
      loose.push({ id, text, was: readPlace(layout.formerPlaces.get(key)) });
      continue;
    }
    const slots = placed.get(place.bar);
    if (slots === undefined) placed.set(place.bar, [{ id, at: place.at, text }]);
    else slots.push({ id, at: place.at, text });
  }
  for (const slots of placed.values()) slots.sort((a, b) => a.at - b.at || byId(a, b));
  return { placed, loose: loose.sort(byId) };
}

/** B7: a place is a bar id and a whole number of ticks; anything else is no place. */
function readPlace(value: unknown): LooseSlot["was"] {
  const bar = fieldOf(value, "bar");
  const at = fieldOf(value, "at");
  if (!isStoredId(bar) || typeof at !== "number" || !Number.isSafeInteger(at) || at < 0) {
    return undefined;
  }
  return { bar: barId(bar), at };
}

/** B11: an entry counts the first time its id stands, if its section is on the board. */
function readForm(
  stored: Y.Array<unknown>,
  sections: ReadonlySet<string>,
): Omit<FormEntry, "singers">[] {
  const entries = new Map<string, Omit<FormEntry, "singers">>();
  for (const value of stored.toArray()) {
    const id = fieldOf(value, "id");
    const section = fieldOf(value, "section");
    const wished = fieldOf(value, "times");
    if (!isStoredId(id) || entries.has(id) || entries.size >= formEntriesMax) continue;
    if (!isStoredId(section) || !sections.has(section)) continue;
    const times = isWhole(wished, 1, timesMax) ? wished : 1;
    entries.set(id, { id: formEntryId(id), section: sectionId(section), times });
  }
  return [...entries.values()];
}

/** B12: those that can be read, in the order of their ids. */
function readSilences(stored: Y.Map<unknown>): Silence[] {
  return [...stored.entries()]
    .flatMap(([id, value]) => silenceIn(id, value) ?? [])
    .sort(byId)
    .slice(0, silencesMax);
}

/** B12: a silence names a rule and at least one bar; undefined for what does neither. */
export function silenceIn(id: string, value: unknown): Silence | undefined {
  const rule = oneLine(fieldOf(value, "rule"), ruleMax);
  const bars = fieldOf(value, "bars");
  if (!isStoredId(id) || rule === undefined || !Array.isArray(bars)) return undefined;
  const silenced = bars.slice(0, silencedBarsMax).filter(isContentId).map(barId);
  if (silenced.length === 0) return undefined;
  const reason = oneLine(fieldOf(value, "reason"), reasonMax) ?? "";
  return { id: silenceId(id), rule, bars: silenced, reason };
}

function cMajor(): Key {
  const key = parseKey("C");
  assert(key.ok, "C is a key");
  return key.value;
}
