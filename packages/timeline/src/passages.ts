/** From a Board to its timeline; what did not change since the last board is the same object. */
import {
  type Bar,
  type BarId,
  type Board,
  type FormEntry,
  type Lane,
  type LaneId,
  laneIds,
  type Section,
  type SectionId,
} from "@halflap/board/board";
import type { Dynamic, Fill, Strum } from "@halflap/board/playing";
import type { Voice } from "@halflap/board/singing";
import { type Ticks, ticks } from "@halflap/theory/units";
import { type LaneBarSource, laneBarOf, type PlacedFill } from "./lane-bar.ts";
import { gapsOf, sungOf } from "./singing.ts";
import type { LaneBar, Pass, Passage, PlayedBar, Timeline } from "./timeline.ts";

/** A maker of timelines that keeps the parts of its last one. */
export type TimelineMaker = (board: Board) => Timeline;

/** The timeline of a board on its own. */
export function timelineOf(board: Board): Timeline {
  return makeTimeline()(board);
}

/** A maker that gives back the same passages, bars and lane bars wherever nothing changed. */
export function makeTimeline(): TimelineMaker {
  let lastBars = new Map<string, { readonly source: LaneBarSource; readonly made: LaneBar }>();
  let lastPlayed = new Map<string, PlayedBar>();
  let lastPassages = new Map<string, Passage>();
  return (board) => {
    const bars: typeof lastBars = new Map();
    const played: typeof lastPlayed = new Map();
    const passages: typeof lastPassages = new Map();
    const laneBar = (key: string, source: LaneBarSource): LaneBar => {
      const last = lastBars.get(key);
      const made = last && isSameSource(last.source, source) ? last.made : laneBarOf(source);
      bars.set(key, { source, made });
      return made;
    };
    const playedBar = (key: string, next: PlayedBar): PlayedBar => {
      const last = lastPlayed.get(key);
      const made =
        last && isShallowlySame(last, next, ["lanes"]) && sameLanes(last, next) ? last : next;
      played.set(key, made);
      return made;
    };
    const passage = (next: Passage): Passage => {
      const last = lastPassages.get(next.id);
      const made = last && isSamePassage(last, next) ? last : next;
      passages.set(next.id, made);
      return made;
    };
    const timeline = timelineFrom(board, { laneBar, playedBar, passage });
    lastBars = bars;
    lastPlayed = played;
    lastPassages = passages;
    return timeline;
  };
}

/** Where parts are kept: each gives back what it made last time, if that says the same. */
type Keeping = {
  readonly laneBar: (key: string, source: LaneBarSource) => LaneBar;
  readonly playedBar: (key: string, next: PlayedBar) => PlayedBar;
  readonly passage: (next: Passage) => Passage;
};

/** One way of playing a section, before its bars are worked out. */
type Way = {
  readonly id: string;
  readonly section: Section;
  readonly bars: readonly Bar[];
  readonly singer: Voice | undefined;
  readonly isSung: boolean;
  readonly entry: FormEntry | undefined;
  readonly next: readonly SectionId[];
};

function timelineFrom(board: Board, keep: Keeping): Timeline {
  const rounds = roundsOf(board);
  const ways = new Map<string, Way>();
  for (const { way } of rounds) {
    const before = ways.get(way.id);
    const next = [...new Set([...(before?.next ?? []), ...way.next])];
    ways.set(way.id, { ...(before ?? way), next });
  }
  const played = new Set(rounds.map(({ way }) => way.section.id));
  for (const section of board.sections) {
    if (played.has(section.id)) continue;
    const way = wayOf(board, section, undefined, 1, []);
    ways.set(way.id, way);
  }
  const fills = fillsBySection(board);
  const made = new Map(
    [...ways.values()].map((way) => [way.id, passageOf(board, way, fills, keep)] as const),
  );
  const order = new Map(board.sections.map((section, index) => [section.id, index]));
  const place = (passage: Passage) => order.get(passage.section.id) ?? order.size;
  let start = 0;
  const passes: Pass[] = [];
  for (const { way, entry, round } of rounds) {
    const passage = made.get(way.id);
    if (passage === undefined) continue;
    passes.push({ passage, entry: entry.id, round, start: ticks(start) });
    start += passage.length;
  }
  const passages = [...made.values()].sort((a, b) => place(a) - place(b));
  return { passages, passes, length: ticks(start) };
}

type Round = { readonly way: Way; readonly entry: FormEntry; readonly round: number };

/** Every round of every form entry, in the order played. */
function roundsOf(board: Board): readonly Round[] {
  const sections = new Map(board.sections.map((section) => [section.id, section]));
  const plain = board.form.flatMap((entry) => {
    const section = sections.get(entry.section);
    if (section === undefined) return [];
    return Array.from({ length: entry.times }, (_, index) => ({
      section,
      entry,
      round: index + 1,
    }));
  });
  return plain.map(({ section, entry, round }, index) => {
    const next = plain[index + 1]?.section.id;
    return {
      way: wayOf(board, section, entry, round, next === undefined ? [] : [next]),
      entry,
      round,
    };
  });
}

function wayOf(
  board: Board,
  section: Section,
  entry: FormEntry | undefined,
  round: number,
  next: readonly SectionId[],
): Way {
  const bars = section.bars.filter((bar) => bar.rounds?.includes(round) ?? true);
  const singerId = entry?.singers[round - 1];
  const singer = board.voices.find((voice) => voice.id === singerId);
  const isNamed = board.form.some(
    (each) => each.section === section.id && each.singers.some((voice) => voice !== undefined),
  );
  const apart = [
    bars.length === section.bars.length ? "" : bars.map((bar) => bar.number).join("."),
    singer?.id ?? "",
    ...laneIds.map((id) => {
      const lane = board.lanes[id];
      if (entry === undefined) return "";
      return lane.restingPasses.has(entry.id)
        ? "rests"
        : (lane.strumming.passes.get(entry.id) ?? "");
    }),
  ];
  return {
    id: [section.id, ...apart].join("|"),
    section,
    bars,
    singer,
    isSung: singer !== undefined || !isNamed,
    entry,
    next,
  };
}

function passageOf(board: Board, way: Way, fills: FillsOfSections, keep: Keeping): Passage {
  const { section, bars } = way;
  const starts: Ticks[] = [];
  let length = 0;
  for (const bar of bars) {
    starts.push(ticks(length));
    length += bar.length;
  }
  const lanes = {
    upper: laneBarsOf(board, way, board.lanes.upper, starts, fills, keep),
    lower: laneBarsOf(board, way, board.lanes.lower, starts, fills, keep),
  };
  const played = bars.flatMap((bar, index): readonly PlayedBar[] => {
    const [start, upper, lower] = [starts[index], lanes.upper[index], lanes.lower[index]];
    if (start === undefined || upper === undefined || lower === undefined) return [];
    return [
      keep.playedBar(`${way.id}|${bar.id}`, {
        bar,
        start,
        aims: board.aims.get(bar.id),
        lanes: { upper, lower },
      }),
    ];
  });
  const sung = way.isSung ? sungOf(board.phrases, played, way.singer) : [];
  const whole = ticks(length);
  const gaps = gapsOf(sung, whole, board.gapOwners, played);
  return keep.passage({
    id: way.id,
    section,
    bars: played,
    length: whole,
    sung,
    gaps,
    next: way.next,
  });
}

function laneBarsOf(
  board: Board,
  way: Way,
  lane: Lane,
  starts: readonly Ticks[],
  fills: FillsOfSections,
  keep: Keeping,
): readonly LaneBar[] {
  const { bars, entry } = way;
  const passRests = entry !== undefined && lane.restingPasses.has(entry.id);
  const after = firstSlotAfter(board, way);
  let dynamic: Dynamic | undefined;
  return bars.map((bar, index) => {
    dynamic = lane.dynamics.get(bar.id) ?? dynamic;
    const nextSlot = bars[index + 1]?.slots[0] ?? after;
    const start = starts[index] ?? ticks(0);
    return keep.laneBar(`${way.id}|${lane.id}|${bar.id}`, {
      lane: lane.id,
      bar,
      setup: lane.setup,
      grips: bar.slots.map((slot) => lane.grips.get(slot.id)),
      nextSlot,
      nextGrip: nextSlot && lane.grips.get(nextSlot.id),
      strum: strumOf(lane, way, bar.id),
      fills: fillsIn(fills[lane.id].get(way.section.id) ?? [], bars, starts, start, bar.length),
      rests: passRests || lane.layOuts.has(bar.id),
      dynamic,
      palmMute: lane.palmMutes.has(bar.id),
      letRing: lane.letRings.has(bar.id),
      feel: board.feel,
      meter: board.meter,
    });
  });
}

/** The nearest pattern: the pass, then the bar, then the section, then the lane. */
function strumOf(lane: Lane, way: Way, bar: BarId): Strum | undefined {
  const { strumming } = lane;
  const id =
    (way.entry && strumming.passes.get(way.entry.id)) ??
    strumming.bars.get(bar) ??
    strumming.sections.get(way.section.id) ??
    strumming.lane;
  return id === undefined ? undefined : lane.strums.get(id);
}

/** A push at the end of a section takes the chord of the section that follows it first. */
function firstSlotAfter(board: Board, way: Way) {
  const next = board.sections.find((section) => section.id === way.next[0]);
  return next?.bars[0]?.slots[0];
}

type FillsOfSections = Readonly<Record<LaneId, ReadonlyMap<SectionId, readonly Fill[]>>>;

function fillsBySection(board: Board): FillsOfSections {
  const sectionOf = new Map<BarId, SectionId>();
  for (const section of board.sections) {
    for (const bar of section.bars) sectionOf.set(bar.id, section.id);
  }
  const grouped = (lane: Lane) => {
    const groups = new Map<SectionId, Fill[]>();
    for (const fill of lane.fills.values()) {
      const section = sectionOf.get(fill.bar);
      if (section === undefined) continue;
      const group = groups.get(section);
      if (group === undefined) groups.set(section, [fill]);
      else group.push(fill);
    }
    return groups;
  };
  return { upper: grouped(board.lanes.upper), lower: grouped(board.lanes.lower) };
}

/** The fills that reach into the bar at `start`, each with its place from there. */
function fillsIn(
  fills: readonly Fill[],
  bars: readonly Bar[],
  starts: readonly Ticks[],
  start: Ticks,
  length: Ticks,
): readonly PlacedFill[] {
  if (fills.length === 0) return [];
  return fills.flatMap((fill) => {
    const index = bars.findIndex((bar) => bar.id === fill.bar);
    const at = starts[index];
    if (at === undefined) return [];
    const from = at + fill.start - start;
    return from < length && from + fill.length > 0 ? [{ fill, from }] : [];
  });
}

function isSameSource(a: LaneBarSource, b: LaneBarSource): boolean {
  return (
    isShallowlySame(a, b, ["grips", "fills"]) &&
    sameItems(a.grips, b.grips) &&
    a.fills.length === b.fills.length &&
    a.fills.every((placed, index) => {
      const other = b.fills[index];
      return placed.fill === other?.fill && placed.from === other.from;
    })
  );
}

function sameLanes(a: PlayedBar, b: PlayedBar): boolean {
  return laneIds.every((lane) => a.lanes[lane] === b.lanes[lane]);
}

function isSamePassage(a: Passage, b: Passage): boolean {
  return (
    a.section === b.section &&
    a.length === b.length &&
    sameItems(a.bars, b.bars) &&
    sameItems(a.next, b.next) &&
    sameThings(a.sung, b.sung) &&
    sameThings(a.gaps, b.gaps)
  );
}

function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}

function sameThings<T extends object>(a: readonly T[], b: readonly T[]): boolean {
  return (
    a.length === b.length &&
    a.every((item, index) => {
      const other = b[index];
      return other !== undefined && isShallowlySame(item, other, []);
    })
  );
}

function isShallowlySame<T extends object>(a: T, b: T, except: readonly (keyof T)[]): boolean {
  const fields = Object.keys(a) as (keyof T)[];
  return fields.every((field) => except.includes(field) || a[field] === b[field]);
}
