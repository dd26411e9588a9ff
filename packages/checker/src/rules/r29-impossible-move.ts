/** R29: the hand has too little time for its way. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { Millimetres } from "@halflap/theory/units";
import { ticks } from "@halflap/theory/units";
import { type BarRule, barByBar } from "../bar-by-bar.ts";
import type { FindingNote, MeasureUnit, Severity } from "../finding.ts";
import { type HandMove, movesFrom } from "../hand-moves.ts";
import { moveSeconds, slidesAlong, travelOf } from "../hand-travel.ts";
import type { Hit } from "../hit.ts";
import { gravity } from "../reading-order.ts";
import type { Segment } from "../segments.ts";
import { exceeds } from "../thresholds.ts";
import { type CheckedBar, msOf, type Tune } from "../tune.ts";
import { sentence } from "../words.ts";

/** A move that is too fast, and by how much. */
export type FastMove = {
  readonly severity: Severity;
  readonly measured: number;
  readonly threshold: number;
  /** Of a speed: otherwise it is a share of the time that is needed. */
  readonly unit?: MeasureUnit;
  readonly length: Millimetres;
  readonly seconds: number;
};

/** What decides how much time there is, and how much a move takes. */
export type Pace = Pick<Tune, "tempo" | "beat" | "limits" | "setups">;

const inBar: BarRule = (bar, ahead, tune) =>
  laneIds.flatMap((lane) => {
    const fast = movesFrom(bar, ahead, lane, tune.setups).flatMap((move) => {
      const judged = fastMove(move, lane, tune);
      return judged === undefined ? [] : [hitOf(move, judged, bar, lane, tune)];
    });
    return gravestOfSeam(fast);
  });

/** One hit for every move that takes longer than there is time for it. */
export const impossibleMove = barByBar(inBar);

/** A move that takes longer than there is time for it; undefined where there is enough. */
export function fastMove(
  move: Pick<HandMove, "from" | "to" | "start" | "end">,
  lane: LaneId,
  tune: Pace,
): FastMove | undefined {
  const length = travelOf(move.from, move.to, tune.setups[lane], tune.limits);
  if (length === undefined) return undefined;
  const all = move.end - move.start;
  const held = move.from.letRing ? (move.from.length ?? 0) : 0;
  const fast = tooFast(length, { all, held }, tune);
  if (fast === undefined || fast.severity === "stop") return fast;
  return slidesAlong(move.from, move.to, tune.setups[lane]) ? undefined : fast;
}

/**
 * How bad a way of the hand is in so many ticks, some of which the old hold has to ring; undefined
 * where there is time enough.
 */
export function tooFast(
  length: Millimetres,
  { all, held }: { readonly all: number; readonly held: number },
  tune: Pace,
): FastMove | undefined {
  const { limits } = tune;
  const needed = moveSeconds(length, limits);
  const share = msOf(Math.max(0, all - held), tune) / 1000 / needed;
  const speed = length / msOf(all, tune);
  const isStop = exceeds(limits.moveStop, msOf(all, tune) / 1000 / needed);
  const shared = { length, seconds: msOf(all, tune) / 1000 };
  if (isStop) return { severity: "stop", measured: share, threshold: limits.moveStop, ...shared };
  if (exceeds(1, share)) return { severity: "look", measured: share, threshold: 1, ...shared };
  const isFast = exceeds(speed, limits.moveSpeed);
  return isFast
    ? { severity: "look", measured: speed, threshold: limits.moveSpeed, unit: "m/s", ...shared }
    : undefined;
}

function hitOf(move: HandMove, fast: FastMove, bar: CheckedBar, lane: LaneId, tune: Tune): Hit {
  const { start, bar: written } = bar.played;
  const span = {
    start: ticks(start + move.start),
    end: ticks(start + (move.isWithin ? move.end : written.length)),
  };
  return {
    rule: "R29",
    severity: fast.severity,
    lanes: [lane],
    segments: segmentsOf(move, bar),
    span,
    notes: [...notesOf(move, "from", lane), ...(move.isWithin ? notesOf(move, "to", lane) : [])],
    measured: fast.measured,
    threshold: fast.threshold,
    unit: fast.unit,
    words: wordsOf(move, fast, tune.players[lane]),
  };
}

function segmentsOf(move: HandMove, bar: CheckedBar): readonly Segment[] {
  const here = move.isWithin && move.bar !== bar ? [bar, move.bar] : [bar];
  const [start, end] = [bar.played.start + move.start, bar.played.start + move.end];
  return here
    .flatMap(({ segments }) => segments)
    .filter(
      (segment) =>
        (segment.start <= end && segment.start + segment.slot.length > start) ||
        (move.isWithin && segment.slot.id === move.to.slot),
    );
}

function notesOf(move: HandMove, side: "from" | "to", lane: LaneId): readonly FindingNote[] {
  const { slot, notes } = move[side];
  return notes.map(({ pitch }) => ({ lane, slot, pitch }));
}

function wordsOf(move: HandMove, { severity, length, seconds }: FastMove, player: string): string {
  const way = `${Math.round(length / 10)} cm`;
  const time = `${seconds.toFixed(2)} s`;
  if (severity !== "stop") {
    return `${sentence(player)} has ${time} for a shift of ${way}: that is tight.`;
  }
  const out = move.from.kind === "line" ? "end the fill earlier" : "let go earlier";
  return `No hand goes ${way} in ${time}: ${player} could ${out} or stay nearer.`;
}

/** Hits of one bar that start in one place, the ways on past a seam: the gravest speaks. */
function gravestOfSeam(hits: readonly Hit[]): readonly Hit[] {
  const byStart = new Map<number, Hit>();
  for (const hit of hits) {
    const start = hit.span?.start ?? 0;
    const known = byStart.get(start);
    if (known === undefined || isGraver(hit, known)) byStart.set(start, hit);
  }
  return [...byStart.values()];
}

function isGraver(one: Hit, other: Hit): boolean {
  return gravity(one) === gravity(other)
    ? roomIn(one) < roomIn(other)
    : gravity(one) < gravity(other);
}

/** What is left to the hand: under 1 it lacks time, which is graver than having to be fast. */
function roomIn({ measured, threshold }: Hit): number {
  return measured <= threshold ? measured / threshold : 1 + threshold / measured;
}
