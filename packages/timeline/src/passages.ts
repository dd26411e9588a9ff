/** From a Board to its timeline; what did not change since the last board is the same object. */
import type { Bar, BarId, Board, Lane, LaneId, SectionId } from "@halflap/board/board";
import type { Dynamic, Fill, Strum } from "@halflap/board/playing";
import { type Ticks, ticks } from "@halflap/theory/units";
import { type LaneBarSource, laneBarOf, type PlacedFill } from "./lane-bar.ts";
import { isSameBar, isSamePassage, isSameSource } from "./sameness.ts";
import { gapsOf, sungOf } from "./singing.ts";
import type { LaneBar, Pass, Passage, PlayedBar, Timeline } from "./timeline.ts";
import { roundsOf, type Way, wayOf } from "./ways.ts";

/** Whether a board is the next one, or only tried: then all is remembered as if it never came. */
export type Mode = "keep" | "try";

/** A maker of timelines that keeps the parts of its last one. */
export type TimelineMaker = (board: Board, mode?: Mode) => Timeline;

/** The timeline of a board on its own. */
export function timelineOf(board: Board): Timeline {
  return makeTimeline()(board);
}

/** A maker that gives back the same passages, bars and lane bars wherever nothing changed. */
export function makeTimeline(): TimelineMaker {
  let lastBars = new Map<string, { readonly source: LaneBarSource; readonly made: LaneBar }>();
  let lastPlayed = new Map<string, PlayedBar>();
  let lastPassages = new Map<string, Passage>();
  return (board, mode = "keep") => {
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
      const made = last && isSameBar(last, next) ? last : next;
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
    if (mode === "try") return timeline;
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
    const way = wayOf(board, { section, entry: undefined, round: 1 }, undefined);
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
  const { bars, entry, after } = way;
  const passRests = entry !== undefined && lane.restingPasses.has(entry.id);
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
