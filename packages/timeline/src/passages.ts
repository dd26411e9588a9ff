/** From a Board to its timeline; what did not change since the last board is the same object. */
import type { Bar, BarId, Board, Lane, LaneId, SectionId } from "@halflap/board/board";
import type { Dynamic, Fill } from "@halflap/board/playing";
import { type Ticks, ticks } from "@halflap/theory/units";
import { type Keeper, type Mode, makeKeeper } from "./keeper.ts";
import { type LaneBarSource, laneBarOf, type PlacedFill } from "./lane-bar.ts";
import { isSameBar, isSamePassage, isSameSource } from "./sameness.ts";
import { gapsOf, sungOf } from "./singing.ts";
import { type Swing, usualSwing } from "./swing.ts";
import type { LaneBar, Pass, Passage, PlayedBar, Timeline } from "./timeline.ts";
import { roundsOf, strumOf, type Way, wayOf } from "./ways.ts";

/** A maker of timelines that keeps the parts of its last one; two to one where no swing is said. */
export type TimelineMaker = (board: Board, mode?: Mode, swing?: Swing) => Timeline;

/** The timeline of a board on its own. */
export function timelineOf(board: Board, swing: Swing = usualSwing): Timeline {
  return makeTimeline()(board, "keep", swing);
}

/** A maker that gives back the same passages, bars and lane bars wherever nothing changed. */
export function makeTimeline(): TimelineMaker {
  const keeping: Keeping = { lanes: makeKeeper(), passages: makeKeeper() };
  return (board, mode = "keep", swing = usualSwing) => {
    const timeline = timelineFrom({ board, swing }, keeping);
    for (const keeper of Object.values(keeping)) keeper.turn(mode);
    return timeline;
  };
}

/** One lane through a passage, with what each of its bars was made from. */
type LanePart = {
  readonly sources: readonly LaneBarSource[];
  readonly bars: readonly LaneBar[];
};

type Keeping = {
  readonly lanes: Keeper<LanePart>;
  readonly passages: Keeper<Passage>;
};

/** What a timeline is made from. */
type Source = { readonly board: Board; readonly swing: Swing };

function timelineFrom(source: Source, keep: Keeping): Timeline {
  const { board, swing } = source;
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
    [...ways.values()].map((way) => [way.id, passageOf(source, way, fills, keep)] as const),
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
  return { passages, passes, length: ticks(start), swing };
}

function passageOf(source: Source, way: Way, fills: FillsOfSections, keep: Keeping): Passage {
  const { section, bars, singer, isSung, next } = way;
  const endsTune = way.entry !== undefined && next.length === 0;
  const { board } = source;
  const upper = laneBarsOf(source, way, board.lanes.upper, fills, keep);
  const lower = laneBarsOf(source, way, board.lanes.lower, fills, keep);
  const { aims, phrases, gapOwners } = board;
  const from = [section, upper, lower, aims, phrases, gapOwners, singer, isSung, endsTune, ...next];
  return keep.passages.keep(way.id, from, (last) => {
    const starts = startsOf(bars);
    const played = bars.flatMap((bar, index): readonly PlayedBar[] => {
      const [start, above, below] = [starts[index], upper[index], lower[index]];
      if (start === undefined || above === undefined || below === undefined) return [];
      const lanes = { upper: above, lower: below };
      const made = { bar, start, aims: aims.get(bar.id), lanes };
      const before = last?.bars[index];
      return [before !== undefined && isSameBar(before, made) ? before : made];
    });
    const whole = ticks(bars.reduce((sum, bar) => sum + bar.length, 0));
    const sung = isSung ? sungOf(phrases, played, singer) : [];
    const gaps = gapsOf(sung, whole, gapOwners, played);
    const made = { id: way.id, section, bars: played, length: whole, sung, gaps, next, endsTune };
    return last !== undefined && isSamePassage(last, made) ? last : made;
  });
}

function startsOf(bars: readonly Bar[]): readonly Ticks[] {
  let start = 0;
  return bars.map((bar) => {
    const here = ticks(start);
    start += bar.length;
    return here;
  });
}

/** Everything of a lane but its grips is compared as a whole: a grip is what changes most. */
function laneBarsOf(
  source: Source,
  way: Way,
  lane: Lane,
  fills: FillsOfSections,
  keep: Keeping,
): readonly LaneBar[] {
  const { board, swing } = source;
  const { bars, entry, after, section } = way;
  const slots = [...bars.flatMap((bar) => bar.slots), ...(after === undefined ? [] : [after])];
  const { setup, strums, strumming, dynamics, palmMutes, letRings, layOuts, restingPasses } = lane;
  const from = [
    ...[section, entry, after, board.feel, board.meter, setup, strums, strumming, lane.fills],
    ...[dynamics, palmMutes, letRings, layOuts, restingPasses, swing],
    ...slots.map((slot) => lane.grips.get(slot.id)),
  ];
  const part = keep.lanes.keep(`${way.id}|${lane.id}`, from, (last) => {
    const sources = sourcesOf(source, way, lane, fills);
    const made = sources.map((source, index) => {
      const before = last?.sources[index];
      const kept = before !== undefined && isSameSource(before, source) && last?.bars[index];
      return kept || laneBarOf(source);
    });
    const isKept = made.every((bar, index) => bar === last?.bars[index]);
    return { sources, bars: isKept && made.length === last?.bars.length ? last.bars : made };
  });
  return part.bars;
}

function sourcesOf(
  { board, swing }: Source,
  way: Way,
  lane: Lane,
  fills: FillsOfSections,
): readonly LaneBarSource[] {
  const { bars, entry, after } = way;
  const passRests = entry !== undefined && lane.restingPasses.has(entry.id);
  const placed = placedFills(fills[lane.id].get(way.section.id) ?? [], bars);
  const starts = startsOf(bars);
  let dynamic: Dynamic | undefined;
  return bars.map((bar, index) => {
    dynamic = lane.dynamics.get(bar.id) ?? dynamic;
    const nextSlot = bars[index + 1]?.slots[0] ?? after;
    return {
      lane: lane.id,
      bar,
      setup: lane.setup,
      grips: bar.slots.map((slot) => lane.grips.get(slot.id)),
      nextSlot,
      nextGrip: nextSlot && lane.grips.get(nextSlot.id),
      strum: strumOf(lane, way, bar.id),
      fills: fillsIn(placed, starts[index] ?? 0, bar.length),
      rests: passRests || lane.layOuts.has(bar.id),
      dynamic,
      palmMute: lane.palmMutes.has(bar.id),
      letRing: lane.letRings.has(bar.id),
      feel: board.feel,
      meter: board.meter,
      swing,
    };
  });
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

/** The fills that stand in these bars, each with its place from the start of the first. */
function placedFills(fills: readonly Fill[], bars: readonly Bar[]): readonly PlacedFill[] {
  const starts = startsOf(bars);
  const placeOf = new Map(bars.map((bar, index) => [bar.id, starts[index] ?? 0]));
  return fills.flatMap((fill) => {
    const at = placeOf.get(fill.bar);
    return at === undefined ? [] : [{ fill, from: at + fill.start }];
  });
}

/** Those of them that reach into a bar, each with its place from the start of that bar. */
function fillsIn(
  placed: readonly PlacedFill[],
  start: number,
  length: Ticks,
): readonly PlacedFill[] {
  return placed
    .map(({ fill, from }) => ({ fill, from: from - start }))
    .filter(({ fill, from }) => from < length && from + fill.length > 0);
}
