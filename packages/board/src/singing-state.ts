/**
 * Who sings, what the bars are meant to be and the band's own limits, once the repairs B20 to B23
 * of SPEC.md are made.
 */
import { midiNote, midiNoteMax, ticks } from "@halflap/theory/units";
import { type BarAim, type BarId, type Board, barAims, laneIds } from "./board.ts";
import type { ChartIds } from "./chart-ids.ts";
import { fieldOf, isWhole } from "./decode.ts";
import {
  barId,
  gapOwnerId,
  isContentId,
  isStoredId,
  phraseId,
  type VoiceId,
  voiceId,
} from "./ids.ts";
import { keptReading } from "./kept-reading.ts";
import { byId, inPlaces, type Table } from "./lane-store.ts";
import {
  gapOwnersMax,
  nameMax,
  ownLimitsMax,
  phrasesMax,
  spanMax,
  sungNotesMax,
  timesMax,
  voicesMax,
} from "./limits.ts";
import { oneLine } from "./one-line.ts";
import { valuesOf } from "./playing-state.ts";
import { type GapOwner, type Phrase, type SungNote, type Voice, voiceTypes } from "./singing.ts";

/** The tables of a board that this reads; what each holds stands in layout.ts. */
export type SongTables = Readonly<
  Record<"voices" | "phrases" | "gapOwners" | "singers" | "aims" | "barRounds" | "limits", Table>
>;

export type Song = Pick<Board, "voices" | "phrases" | "gapOwners" | "aims" | "limits">;

/** Who sings each round of a form entry, by its id; only voices that there are. */
export type Singers = ReadonlyMap<string, readonly (VoiceId | undefined)[]>;

/** All but singers and rounds, which are parts of the form and of the bars. */
export function readSong(tables: SongTables, chart: Pick<ChartIds, "bars" | "lengths">): Song {
  const [phrases, gapOwners] = [storedPhrases(tables), storedGapOwners(tables)];
  return {
    voices: readVoices(tables.voices),
    phrases: inPlaces(phrases, chart, ({ start }) => start, phrasesMax),
    gapOwners: inPlaces(gapOwners, chart, ({ at }) => at, gapOwnersMax),
    aims: valuesOf(tables.aims, chart.bars, barId, readAims),
    limits: readOwnLimits(tables.limits),
  };
}

/** The phrases that can be read, by id, wherever they stand. */
export function storedPhrases({ phrases }: Pick<SongTables, "phrases">): readonly Phrase[] {
  return readAll(phrases, keptPhrase);
}

/** The owners of gaps that can be read, by id, wherever they stand. */
export function storedGapOwners({ gapOwners }: Pick<SongTables, "gapOwners">): readonly GapOwner[] {
  return readAll(gapOwners, keptGapOwner);
}

/** B20: a voice has a name; its range counts if it is one. */
export function readVoices(stored: Table): readonly Voice[] {
  return readAll(stored, (key, value): Voice | undefined => {
    const name = oneLine(fieldOf(value, "name"), nameMax);
    if (name === undefined) return undefined;
    const [low, high] = [fieldOf(value, "low"), fieldOf(value, "high")];
    const isRange = isWhole(low, 0, midiNoteMax) && isWhole(high, low, midiNoteMax);
    return {
      id: voiceId(key),
      name,
      lane: laneIds.find((known) => known === fieldOf(value, "lane")),
      type: voiceTypes.find((known) => known === fieldOf(value, "type")),
      range: isRange ? { low: midiNote(low), high: midiNote(high) } : undefined,
    };
  })
    .sort(byId)
    .slice(0, voicesMax);
}

/** B20: a round that a voice sings which is not there is sung by nobody. */
export function readSingers(stored: Table, voices: readonly Voice[]): Singers {
  const singers = new Map<string, readonly (VoiceId | undefined)[]>();
  for (const entry of [...stored.keys()].filter(isContentId).sort()) {
    const value = stored.get(entry);
    if (!Array.isArray(value)) continue;
    singers.set(
      entry,
      value.slice(0, timesMax).map((id) => voices.find((voice) => voice.id === id)?.id),
    );
  }
  return singers;
}

/** The singers of so many rounds, without the silent rounds at the end. */
export function singersOf(
  singers: Singers,
  entry: string,
  times: number,
): readonly (VoiceId | undefined)[] {
  const rounds = (singers.get(entry) ?? []).slice(0, times);
  const silent = [...rounds].reverse().findIndex((voice) => voice !== undefined);
  return silent < 0 ? [] : rounds.slice(0, rounds.length - silent);
}

/** B22: the rounds of each bar that is not played in all of them. */
export function readRounds(stored: Table): ReadonlyMap<BarId, readonly number[]> {
  return valuesOf(stored, [], barId, (value) => {
    if (!Array.isArray(value)) return undefined;
    const rounds = value.filter((round): round is number => isWhole(round, 1, timesMax));
    return rounds.length === 0 ? undefined : [...new Set(rounds)].sort((a, b) => a - b);
  });
}

/** B21: a phrase as far as it can be read: without a bar and a length it is none. */
export function readPhrase(key: string, value: unknown): Phrase | undefined {
  const bar = fieldOf(value, "bar");
  const start = fieldOf(value, "start");
  const length = fieldOf(value, "length");
  const melody = fieldOf(value, "melody");
  if (!isContentId(bar) || !isWhole(start, 0, spanMax) || !isWhole(length, 1, spanMax)) {
    return undefined;
  }
  return {
    id: phraseId(key),
    bar: barId(bar),
    start: ticks(start),
    length: ticks(length),
    melody: Array.isArray(melody) ? readMelody(melody, length) : [],
  };
}

/** B21: the notes that lie inside the phrase, by start; of two at once the first. */
function readMelody(stored: readonly unknown[], length: number): readonly SungNote[] {
  let end = 0;
  return stored
    .slice(0, sungNotesMax)
    .flatMap((value) => readSungNote(value) ?? [])
    .sort((a, b) => a.start - b.start)
    .filter((note) => {
      if (note.start < end || note.start + note.length > length) return false;
      end = note.start + note.length;
      return true;
    });
}

function readSungNote(value: unknown): SungNote | undefined {
  const start = fieldOf(value, "start");
  const length = fieldOf(value, "length");
  const pitch = fieldOf(value, "pitch");
  const isNote =
    isWhole(start, 0, spanMax) && isWhole(length, 1, spanMax) && isWhole(pitch, 0, midiNoteMax);
  return isNote
    ? { start: ticks(start), length: ticks(length), pitch: midiNote(pitch) }
    : undefined;
}

function readGapOwner(key: string, value: unknown): GapOwner | undefined {
  const [bar, at] = [fieldOf(value, "bar"), fieldOf(value, "at")];
  const owners = [...laneIds, "both", "open"] as const;
  const owner = owners.find((known) => known === fieldOf(value, "owner"));
  if (!isContentId(bar) || !isWhole(at, 0, spanMax) || owner === undefined) return undefined;
  return { id: gapOwnerId(key), bar: barId(bar), at: ticks(at), owner };
}

const keptPhrase = keptReading(readPhrase);
const keptGapOwner = keptReading(readGapOwner);

function readAims(value: unknown): readonly BarAim[] | undefined {
  if (!Array.isArray(value)) return undefined;
  const aims = barAims.filter((aim) => value.includes(aim));
  return aims.length === 0 ? undefined : aims;
}

/** B23: a limit has a name of letters and digits, and a number; by name. */
function readOwnLimits(stored: Table): ReadonlyMap<string, number> {
  const limits = [...stored.keys()]
    .filter(isLimitName)
    .sort()
    .flatMap((name) => {
      const value = stored.get(name);
      return typeof value === "number" && Number.isFinite(value) ? [[name, value] as const] : [];
    });
  return new Map(limits.slice(0, ownLimitsMax));
}

/** Whether a value can be the name of one of the checker's limits. */
export function isLimitName(value: unknown): value is string {
  return typeof value === "string" && /^[A-Za-z][A-Za-z0-9]{0,59}$/.test(value);
}

function readAll<T>(stored: Table, read: (key: string, value: unknown) => T | undefined): T[] {
  return [...stored.keys()]
    .filter(isStoredId)
    .sort()
    .flatMap((key) => read(key, stored.get(key)) ?? []);
}
