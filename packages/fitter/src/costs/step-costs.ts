/** What a lane's steps between two slots cost, and for what: one set of judges fills and tells. */
import type { LaneId } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import { fastMove } from "@halflap/checker/impossible-move";
import { frameNumber } from "../grips/grip-sound.ts";
import type { HeldGrip, HeldGrips } from "../grips/held-grip.ts";
import { makeShelf } from "../grips/shelf.ts";
import { type WayTable, wayTable } from "../grips/way-table.ts";
import type { LineMove, TimedStep } from "../tune/moves-played.ts";
import { cappedTable } from "./capped.ts";
import type { Taste } from "./judge.ts";
import { type StepJudge, stepJudges } from "./step-judges.ts";
import { type CausedSteps, findingSteps } from "./weights.ts";

/** The steps of one lane from one slot to another, with the grips at both ends. */
export type LaneStep = {
  readonly lane: LaneId;
  readonly from: HeldGrips;
  readonly to: HeldGrips;
  readonly kinds: readonly TimedStep[];
};

const tables = makeShelf<Uint16Array>(128);

/** What each way costs through the whole form, row by row of the grips left; as `capped`. */
export function stepTable(step: LaneStep, taste: Taste): Uint16Array {
  return tables(nameOf(step, taste), () => {
    const ways = wayTable(step.from, step.to, taste.frame.limits);
    const sums = new Int32Array(ways.motion.length);
    for (const { kind, times } of step.kinds) {
      const judges = stepJudges(ways, kind, step.lane, taste);
      addHandSteps(
        sums,
        ways,
        judges.filter(({ looksAt }) => looksAt === "hand"),
        times,
      );
      for (const { cost, looksAt } of judges) if (looksAt === "all") addSteps(sums, cost, times);
    }
    return cappedTable(sums);
  });
}

/** What one way costs, cause by cause; lists of one grip each. */
export function stepCauses(step: LaneStep, taste: Taste): readonly CausedSteps[] {
  const ways = wayTable(step.from, step.to, taste.frame.limits);
  return step.kinds.flatMap(({ kind, times }) =>
    stepJudges(ways, kind, step.lane, taste).map(({ cause, cost }) => {
      return { cause, steps: cost(0) * times };
    }),
  );
}

/** The same by rule, in steps; what no rule says is left out. */
export function stepsByRule(step: LaneStep, taste: Taste): ReadonlyMap<RuleId, number> {
  const ways = wayTable(step.from, step.to, taste.frame.limits);
  const costs = new Map<RuleId, number>();
  for (const { kind, times } of step.kinds) {
    for (const { rule, cost } of stepJudges(ways, kind, step.lane, taste)) {
      if (rule !== undefined) costs.set(rule, (costs.get(rule) ?? 0) + cost(0) * times);
    }
  }
  return costs;
}

/** What the moves to and from the lane's own fills and lines cost a grip: R29. */
export function lineSteps(moves: readonly LineMove[], held: HeldGrip, taste: Taste): number {
  if (moves.length === 0) return 0;
  return moves.reduce((sum, { lane, side, move, times, isSilenced }) => {
    if (isSilenced) return sum;
    const asGrip = { ...move[side], notes: held.notes, stopped: held.stopped };
    const severity = fastMove({ ...move, [side]: asGrip }, lane, taste.frame)?.severity;
    return severity === undefined ? sum : sum + findingSteps(taste.weights, severity) * times;
  }, 0);
}

/** Judges of the hand are asked once for all ways that are alike to them. */
function addHandSteps(
  table: Int32Array,
  { travels, likeness, jumps, lengths }: WayTable,
  judges: readonly StepJudge[],
  times: number,
): void {
  const known = new Int32Array(lengths.length * handWays).fill(unknown);
  for (let place = 0; place < table.length; place++) {
    const way = (travels[place] ?? 0) * handWays + (likeness[place] ?? 0) * 2 + (jumps[place] ?? 0);
    let more = known[way] ?? unknown;
    if (more === unknown) {
      more = judges.reduce((sum, { cost }) => sum + cost(place), 0) * times;
      known[way] = more;
    }
    table[place] = (table[place] ?? 0) + more;
  }
}

/** Three kinds of likeness, each a jump or none. */
const handWays = 6;
const unknown = -1;

/** The loop that takes the time. */
function addSteps(table: Int32Array, cost: (place: number) => number, times: number): void {
  for (let place = 0; place < table.length; place++) {
    table[place] = (table[place] ?? 0) + cost(place) * times;
  }
}

function nameOf({ lane, from, to, kinds }: LaneStep, { frame, weights, high }: Taste): string {
  const asked = kinds.map(({ key, times }) => `${times} ${key}`).join();
  const { tempo, beat } = frame;
  const values = Object.values(weights).join();
  return [from.id, to.id, lane === high, tempo, beat, frameNumber(frame), values, asked].join(" ");
}
