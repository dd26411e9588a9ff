/** R22: the strumming arm has to go faster than an arm goes. */
import { type LaneId, laneIds } from "@halflap/board/board";
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
  const last = { down: Number.NEGATIVE_INFINITY, up: Number.NEGATIVE_INFINITY };
  const paces = new Map<CheckedBar, Pace>();
  for (const bar of passage.bars) {
    let { cycle, step } = still;
    for (const attack of bar.played.lanes[lane].attacks) {
      if (attack.kind !== "stroke") continue;
      const at = bar.played.start + attack.at;
      cycle = Math.min(cycle, at - last[attack.stroke.way]);
      step = Math.min(step, at - Math.max(last.down, last.up));
      last[attack.stroke.way] = at;
    }
    paces.set(bar, { cycle, step });
  }
  return paces;
}

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
    words: wordsOf(run, lane, pace, tune),
  };
}

function wordsOf(run: BarRun<Severity>, lane: LaneId, pace: Pace, tune: Tune): string {
  const player = tune.players[lane];
  const rate = Math.round(perSecond(pace.step, tune) * 10) / 10;
  const strokes = `${forBars(run)} ${player} strums ${rate} strokes a second`;
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
