/**
 * From documents to Board: total on any state, the same on every machine, and new only where
 * something changed.
 */
import type { Chord } from "@halflap/theory/chord";
import type { Grip } from "@halflap/theory/grip";
import { decodeGrip } from "@halflap/theory/grip";
import { parseChord } from "@halflap/theory/parse-chord";
import { type Ticks, ticks } from "@halflap/theory/units";
import { printBarWords } from "./bar-text.ts";
import { fittingForm } from "./bars-played.ts";
import type { Bar, BarId, Board, FormEntry, LaneId, Section, SetAside, Slot } from "./board.ts";
import { idsOf } from "./chart-ids.ts";
import { type ChartState, type PlacedSlot, readChartState } from "./chart-state.ts";
import type { BoardDocuments } from "./documents.ts";
import { laneDocument } from "./documents.ts";
import { withFirstPasses } from "./first-passes.ts";
import { borrowedBar, borrowedSlot, derivedEntry, heldSlot } from "./ids.ts";
import { keptPart } from "./kept-part.ts";
import { readLaneState } from "./lane-state.ts";
import { byId } from "./lane-store.ts";
import { type ChartLayout, chartLayout, laneLayout } from "./layout.ts";
import { barsMax, setAsideMax, slotsPerBarMax } from "./limits.ts";
import { barLengthOf } from "./meter.ts";
import { readProposals } from "./proposal-state.ts";
import { barsApart } from "./set-aside.ts";
import { share } from "./share.ts";
import { readSong, singersOf } from "./singing-state.ts";
import { readTalkState } from "./talk.ts";
import { waitingOf } from "./waiting.ts";

type ChordOf = (text: string) => Chord | undefined;

/**
 * A function that reads the documents as they are now. Parts that did not change since its last
 * call are the same objects (`===`) as then.
 */
export function makeReader(documents: BoardDocuments): () => Board {
  const chordOf = remembered((text): Chord | undefined => {
    const chord = parseChord(text);
    return chord.ok ? chord.value : undefined;
  });
  const gripOf = remembered(decodeGrip);
  const parts = partsOf(documents, chordOf, gripOf);
  let last: Board | undefined;
  return () => {
    last = share(last, boardOf(parts));
    return last;
  };
}

/** What a board is read from, each part anew only when a document changed that it looks at. */
function partsOf(
  documents: BoardDocuments,
  chordOf: ChordOf,
  gripOf: (text: string) => Grip | undefined,
) {
  const { board, talk } = documents;
  const tables = chartLayout(board);
  const lanes = {
    upper: documents[laneDocument("upper")],
    lower: documents[laneDocument("lower")],
  };
  const stores = { upper: laneLayout(lanes.upper), lower: laneLayout(lanes.lower) };
  const chart = keptPart([board], () => {
    const state = readChartState(board);
    const sections = sectionsOf(state, chordOf);
    const form =
      state.form.length > 0
        ? fittingForm(state.form, sections, state.singers)
        : sectionsInTurn(state);
    const ids = idsOf(sections, form);
    const { silences, settings } = state;
    const song = readSong(tables, ids);
    return {
      ids,
      said: { ...settings, sections, form, silences, ...song },
      aside: setAsideOf(state, tables),
    };
  });
  const people = keptPart([talk], () => readTalkState(talk));
  const lane = (id: LaneId) =>
    keptPart([board, lanes[id]], () => {
      const { ids, said } = chart();
      return readLaneState(withFirstPasses(stores[id], said.form), ids, gripOf);
    });
  return {
    chart,
    people,
    lanes: { upper: lane("upper"), lower: lane("lower") },
    proposals: keptPart([board, talk], () => readProposals(tables.proposals, people().members)),
    waiting: keptPart([board, lanes.upper, lanes.lower], () =>
      waitingOf(tables, stores, chart().ids),
    ),
  };
}

function boardOf(parts: ReturnType<typeof partsOf>): Board {
  const { said, aside } = parts.chart();
  const { owners, members, takes } = parts.people();
  const lane = (id: LaneId) => ({ id, owner: owners[id], ...parts.lanes[id]() });
  return {
    ...said,
    proposals: parts.proposals(),
    lanes: { upper: lane("upper"), lower: lane("lower") },
    members,
    takes,
    setAside: { ...aside, waiting: parts.waiting() },
  };
}

/** The slots that stand in a bar: inside it, and the first of those that start together (B8). */
export function standingSlots(placed: readonly PlacedSlot[], length: Ticks): PlacedSlot[] {
  return placed
    .filter((slot, i) => slot.at < length && slot.at !== placed[i - 1]?.at)
    .slice(0, slotsPerBarMax);
}

/** How long a bar is, whether or not it stands. */
export function barLength(chart: Pick<ChartState, "lengths" | "settings">, bar: BarId): Ticks {
  return chart.lengths.get(bar) ?? barLengthOf(chart.settings.meter);
}

function sectionsOf(chart: ChartState, chordOf: ChordOf): readonly Section[] {
  const own = new Map(chart.sections.map((section) => [section.id, barsOf(chart, section.bars)]));
  const playing = chart.sections.filter((section) => section.borrows === undefined);
  let free = barsMax - playing.reduce((sum, section) => sum + section.bars.length, 0);
  let number = 0;
  return chart.sections.map((section) => {
    const source = sourceOf(chart, section.id);
    const borrowed = source === section.id ? undefined : section.id;
    const all = own.get(source) ?? [];
    const bars = borrowed === undefined ? all : all.slice(0, free);
    if (borrowed !== undefined) free -= bars.length;
    return {
      id: section.id,
      name: section.name,
      borrows: section.borrows,
      bars: bars.map((bar): Bar => {
        number += 1;
        return {
          id: borrowed === undefined ? bar.id : borrowedBar(borrowed, bar.id),
          number,
          length: bar.length,
          rounds: chart.rounds.get(bar.id),
          slots: bar.slots.map(({ id, start, length, text }) => ({
            id: borrowed === undefined ? id : borrowedSlot(borrowed, id),
            start,
            length,
            text,
            chord: chordOf(text),
          })),
        };
      }),
    };
  });
}

/** The section at the end of the borrowing: the one whose own bars are played. */
export function sourceOf(
  chart: Pick<ChartState, "sections">,
  section: Section["id"],
): Section["id"] {
  const from = chart.sections.find(({ id }) => id === section)?.borrows;
  return from === undefined ? section : sourceOf(chart, from);
}

type BareBar = {
  readonly id: BarId;
  readonly length: Ticks;
  readonly slots: readonly Omit<Slot, "chord">[];
};

function barsOf(chart: ChartState, bars: readonly BarId[]): readonly BareBar[] {
  // B10: with nothing before it to go on, a bar that starts without a chord starts with none.
  let before = "N.C.";
  return bars.map((id) => {
    const length = barLength(chart, id);
    const placed = standingSlots(chart.placed.get(id) ?? [], length);
    const first = { id: heldSlot(id), at: 0, text: before };
    const slots = placed[0]?.at === 0 ? placed : [first, ...placed];
    before = slots.at(-1)?.text ?? before;
    return {
      id,
      length,
      slots: slots.map((slot, i) => ({
        id: slot.id,
        start: ticks(slot.at),
        length: ticks((slots[i + 1]?.at ?? length) - slot.at),
        text: slot.text,
      })),
    };
  });
}

/** B11: without a form, each section is played once. */
function sectionsInTurn({ sections, singers }: ChartState): readonly FormEntry[] {
  return sections.map(({ id: section }) => {
    const id = derivedEntry(section);
    return { id, section, times: 1, singers: singersOf(singers, id, 1) };
  });
}

function setAsideOf(chart: ChartState, tables: ChartLayout): Omit<SetAside, "waiting"> {
  const playing = chart.sections.filter(({ borrows }) => borrows === undefined);
  const slots = [...chart.loose];
  for (const [bar, placed] of chart.placed) {
    const standing = new Set(standingSlots(placed, barLength(chart, bar)));
    for (const slot of placed) {
      if (standing.has(slot)) continue;
      const { id, at, text } = slot;
      slots.push({ id, text, was: { bar, at } });
    }
  }
  const standing = playing.flatMap(({ bars }) => bars);
  const bars = barsApart(tables, chart, standing);
  const texts = bars.map((bar) => {
    const length = barLength(chart, bar);
    const standing = standingSlots(chart.placed.get(bar) ?? [], length);
    return [bar, barText(standing, length, chart)] as const;
  });
  return { bars, texts: new Map(texts), slots: slots.sort(byId).slice(0, setAsideMax) };
}

function barText(slots: readonly PlacedSlot[], length: Ticks, chart: ChartState): string {
  if (slots.length === 0) return "";
  const texts = slots.map(({ at, text }) => ({ at: ticks(at), chord: text }));
  return printBarWords(texts, length, chart.settings.meter);
}

/**
 * A pure function that keeps its answers, a bounded number of them, so that they stay the same
 * objects.
 */
function remembered<T>(answer: (text: string) => T): (text: string) => T {
  const rememberedMax = 4096;
  const answers = new Map<string, { readonly value: T }>();
  return (text) => {
    const known = answers.get(text);
    if (known !== undefined) return known.value;
    if (answers.size >= rememberedMax) answers.clear();
    const value = answer(text);
    answers.set(text, { value });
    return value;
  };
}
