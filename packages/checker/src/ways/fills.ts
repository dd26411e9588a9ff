/** Fills that get in the way: left to the other, shortened, begun later, or moved into a gap. */
import type { LaneId } from "@halflap/board/board";
import type { Fill } from "@halflap/board/playing";
import type { LaneEdit } from "@halflap/board/proposal";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { PlayedBar } from "@halflap/timeline/timeline";
import type { CheckedPassage } from "../tune.ts";
import { type Candidate, otherLane, type Situation, type WayOutMaker } from "./candidate.ts";
import { weights } from "./weights.ts";

/** A fill shorter than this is no answer any more. */
const shortest = ticks(24);

/** A fill of the lane where it lies in a passage. */
type Placed = {
  readonly fill: Fill;
  readonly bar: PlayedBar["bar"];
  /** From the start of the passage. */
  readonly start: number;
  readonly passage: CheckedPassage;
};

/** Changes to the lane's fills that touch the finding. */
export const fillChanges: WayOutMaker = (situation) =>
  fillsIn(situation).flatMap((placed) => [
    ...moved(placed, situation),
    ...shortened(placed, situation),
    left(placed, situation),
  ]);

/** The lane's fills that sound while the finding lasts, each once. */
function fillsIn({ board, finding, lane, passages }: Situation): readonly Placed[] {
  const found = new Map<string, Placed>();
  for (const passage of passages) {
    const { bars } = passage.passage;
    const stretches = finding.spans.flatMap(({ bar, start, end }) => {
      const played = bars.find((each) => each.bar.id === bar);
      return played ? [[played.start + start, played.start + end] as const] : [];
    });
    for (const fill of board.lanes[lane].fills.values()) {
      const home = bars.find((each) => each.bar.id === fill.bar);
      if (home === undefined || fill.kind !== "fill" || found.has(fill.id)) continue;
      const start = home.start + fill.start;
      const touches = stretches.some(([from, to]) => start <= to && start + fill.length >= from);
      if (touches) found.set(fill.id, { fill, bar: home.bar, start, passage });
    }
  }
  return [...found.values()];
}

/** Without the fill; it says to whom that leaves the place. */
function left(placed: Placed, situation: Situation): Candidate {
  const { fill, bar, start, passage } = placed;
  const { board, lane, tune } = situation;
  const other = otherLane(lane);
  const end = start + fill.length;
  const isTaken = stretchesOf([...board.lanes[other].fills.values()], passage).some((each) =>
    meets(each, { start, end }),
  );
  const why = isTaken ? "" : whose(placed, tune.players[other], lane);
  const words = isTaken
    ? `Leave the fill in bar ${bar.number} to ${tune.players[other]}`
    : `Leave out the fill in bar ${bar.number}${why}`;
  const edits = [{ kind: "fill-gone", fill: fill.id }] as const;
  return { kind: "fill gone", lane, edits, words, loss: weights.look };
}

/** Why the place of a fill is not its player's, where it mostly lies in such a gap. */
function whose({ fill, start, passage }: Placed, other: string, lane: LaneId): string {
  const gap = passage.passage.gaps.find(
    (each) =>
      2 * (Math.min(each.end, start + fill.length) - Math.max(each.start, start)) >= fill.length,
  );
  if (gap === undefined) return "";
  if (gap.owner === undefined) return ": the gap is nobody's yet";
  if (gap.owner === "open") return ": the gap stays empty";
  return gap.owner === otherLane(lane) ? `: the gap belongs to ${other}` : "";
}

type Stretch = { readonly start: number; readonly end: number };

/** Where fills lie in a passage, from its start. */
function stretchesOf(fills: readonly Fill[], { passage }: CheckedPassage): readonly Stretch[] {
  return fills.flatMap((fill) => {
    const home = passage.bars.find((each) => each.bar.id === fill.bar);
    const start = home && home.start + fill.start;
    return start === undefined ? [] : [{ start, end: start + fill.length }];
  });
}

function meets(one: Stretch, other: Stretch): boolean {
  return one.start < other.end && other.start < one.end;
}

/** Ended earlier, or begun later, by half beats. */
function shortened(placed: Placed, { tune, lane }: Situation): readonly Candidate[] {
  const { fill, bar } = placed;
  const half = tune.beat / 2;
  const cuts = Math.floor((fill.length - shortest) / half);
  return Array.from({ length: Math.max(0, Math.min(cuts, 6)) }, (_, index) => {
    const by = (index + 1) * half;
    const words = `the fill in bar ${bar.number} ${beatWords(by / tune.beat)}`;
    const edit = (changed: Fill): readonly LaneEdit[] => [{ kind: "fill", fill: changed }];
    return [
      {
        kind: "fill cut",
        lane,
        edits: edit(within(fill, 0, fill.length - by)),
        words: `End ${words} earlier`,
        loss: 0,
      },
      {
        kind: "fill cut",
        lane,
        edits: edit(within(fill, by, fill.length)),
        words: `Begin ${words} later`,
        loss: 0,
      },
    ] as const;
  })
    .flat()
    .filter(({ edits }) => edits.every((each) => isWorthPlaying(each, fill)));
}

/** In a gap that it fits into, the nearest first. */
function moved(placed: Placed, { lane, board }: Situation): readonly Candidate[] {
  const { fill, start, passage } = placed;
  const { gaps, bars } = passage.passage;
  const others = [...board.lanes.upper.fills.values(), ...board.lanes.lower.fills.values()];
  const taken = stretchesOf(
    others.filter(({ id }) => id !== fill.id),
    passage,
  );
  return gaps
    .filter((gap) => gap.end - gap.start >= fill.length)
    .filter(({ owner }) => owner === undefined || owner === "both" || owner === lane)
    .filter((gap) => !taken.some((each) => meets(each, gap)))
    .sort((a, b) => Math.abs(a.start - start) - Math.abs(b.start - start))
    .slice(0, 3)
    .flatMap((gap): readonly Candidate[] => {
      const home = bars.filter((each) => each.start <= gap.start).at(-1);
      if (home === undefined) return [];
      const at = ticks(gap.start - home.start);
      const changed: Fill = { ...fill, bar: home.bar.id, start: at };
      const [from, to] = [placed.bar.number, home.bar.number];
      const words = `Play the fill of bar ${from} in the gap of bar ${to}`;
      return [
        { kind: "fill moved", lane, edits: [{ kind: "fill", fill: changed }], words, loss: 0 },
      ];
    });
}

/** The part of a fill between two points, its notes cut where they cross them. */
function within(fill: Fill, from: number, until: number): Fill {
  const notes = fill.notes
    .filter((note) => note.start >= from && note.start < until)
    .map((note, index) => ({
      ...note,
      way: index === 0 && from > 0 && note.way !== "bend" ? ("pluck" as const) : note.way,
      start: ticks(note.start - from),
      length: lengthUpTo(note.length, until - note.start),
    }));
  return { ...fill, start: ticks(fill.start + from), length: ticks(until - from), notes };
}

function lengthUpTo(length: Ticks, most: number): Ticks {
  return ticks(Math.max(1, Math.min(length, most)));
}

/** A fill that had notes keeps some. */
function isWorthPlaying(edit: LaneEdit, before: Fill): boolean {
  return edit.kind === "fill" && (before.notes.length === 0 || edit.fill.notes.length > 0);
}

/** "half a beat", "one beat", "1.5 beats". */
function beatWords(beats: number): string {
  if (beats === 0.5) return "half a beat";
  return beats === 1 ? "a beat" : `${beats} beats`;
}
