/** R22: the strumming arm has to go faster than an arm goes. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { Stroke } from "@halflap/board/playing";
import { remembered } from "@halflap/board/remembered";
import type { LaneBar } from "@halflap/timeline/timeline";
import { type BarRun, barRuns, forBars } from "../bar-runs.ts";
import type { Severity } from "../finding.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { exceeds } from "../thresholds.ts";
import { type CheckedBar, type CheckedPassage, msOf, type Tune } from "../tune.ts";
import { sentence } from "../words.ts";

/** The fastest that a lane's arm goes in a bar, in ticks. */
type Pace = {
  /** From a stroke to the next one the same way: the arm has gone there and back. */
  readonly cycle: number;
  /** From a stroke to the next, whichever way. */
  readonly step: number;
};

/** One hit for every run of bars that is as hard for one lane's arm; ghosts move the arm too. */
export const strumRate: PassageRule = (passage, tune) =>
  laneIds.flatMap((lane) => {
    const paces = pacesOf(passage, lane);
    const paceOf = (bar: CheckedBar): Pace => paces.get(bar) ?? still;
    return barRuns(passage, (bar) => severityOf(paceOf(bar), tune)).map((run) => {
      const cycle = Math.min(...run.bars.map((bar) => paceOf(bar).cycle));
      const step = Math.min(...run.bars.map((bar) => paceOf(bar).step));
      return hitOf(run, lane, { cycle, step }, tune);
    });
  });

const still: Pace = { cycle: Number.POSITIVE_INFINITY, step: Number.POSITIVE_INFINITY };

function pacesOf(passage: CheckedPassage, lane: LaneId): ReadonlyMap<CheckedBar, Pace> {
  const paces = new Map<CheckedBar, Pace>();
  let last: Ends = { down: Number.NEGATIVE_INFINITY, up: Number.NEGATIVE_INFINITY };
  for (const bar of passage.bars) {
    const { start } = bar.played;
    const { pace, first, ends } = motionOf(bar.played.lanes[lane]);
    const before = Math.max(last.down, last.up);
    paces.set(bar, {
      cycle: Math.min(pace.cycle, start + first.down - last.down, start + first.up - last.up),
      step: Math.min(pace.step, start + Math.min(first.down, first.up) - before),
    });
    last = { down: Math.max(last.down, start + ends.down), up: Math.max(last.up, start + ends.up) };
  }
  return paces;
}

/** Where strokes each way lie; beyond every place where there are none. */
type Ends = Readonly<Record<Stroke["way"], number>>;

/** How the arm goes within a bar, and its first and last strokes, for the bars beside. */
const motionOf = remembered((laneBar: LaneBar) => {
  const first = { down: Number.POSITIVE_INFINITY, up: Number.POSITIVE_INFINITY };
  const ends = { down: Number.NEGATIVE_INFINITY, up: Number.NEGATIVE_INFINITY };
  let { cycle, step } = still;
  for (const attack of laneBar.attacks) {
    if (attack.kind !== "stroke") continue;
    const { at } = attack;
    const { way } = attack.stroke;
    cycle = Math.min(cycle, at - ends[way]);
    step = Math.min(step, at - Math.max(ends.down, ends.up));
    first[way] = Math.min(first[way], at);
    ends[way] = at;
  }
  return { pace: { cycle, step }, first, ends };
});

function severityOf({ cycle, step }: Pace, tune: Tune): Severity | undefined {
  const { limits } = tune;
  const cycles = perSecond(cycle, tune);
  if (exceeds(cycles, limits.armStop)) return "stop";
  if (exceeds(cycles, limits.armFix)) return "fix";
  if (exceeds(cycles, limits.armLook)) return "look";
  return exceeds(limits.shortStep, msOf(step, tune)) ? "note" : undefined;
}

function hitOf(run: BarRun<Severity>, lane: LaneId, pace: Pace, tune: Tune): Hit {
  const { limits } = tune;
  const isNote = run.verdict === "note";
  const threshold = {
    stop: limits.armStop,
    fix: limits.armFix,
    look: limits.armLook,
    note: limits.shortStep,
  }[run.verdict];
  return {
    rule: "R22",
    severity: run.verdict,
    lanes: [lane],
    segments: run.segments,
    notes: [],
    measured: isNote ? msOf(pace.step, tune) : perSecond(pace.cycle, tune),
    threshold,
    unit: isNote ? "ms" : undefined,
    words: wordsOf(run, lane, pace, tune),
  };
}

function wordsOf(run: BarRun<Severity>, lane: LaneId, pace: Pace, tune: Tune): string {
  const player = tune.players[lane];
  const rate = Math.round(perSecond(pace.step, tune) * 10) / 10;
  const strokes = `${forBars(run)} ${player} plays ${rate} strokes a second`;
  const wayOut = pace.cycle === pace.step ? "strum both ways" : "leave some out";
  switch (run.verdict) {
    case "stop":
      return `${strokes}, faster than an arm goes: ${wayOut}.`;
    case "fix":
      return `${strokes}: ${wayOut}, before it gets ragged or hurts.`;
    case "look":
      return `${strokes}: that is hard to keep up, so rest the arm when it tires.`;
    case "note": {
      const apart = Math.round(msOf(pace.step, tune));
      return `${sentence(player)}'s quickest strokes are ${apart} ms apart: hard to keep in time.`;
    }
  }
}

function perSecond(stretch: number, tune: Tune): number {
  return 1000 / msOf(stretch, tune);
}
