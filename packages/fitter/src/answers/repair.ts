/** A choice whose grips still make a stop or a fix, tried again without them, slot by slot. */
import type { LaneId } from "@halflap/board/board";
import type { Checker } from "@halflap/checker/check";
import type { Finding, RuleId } from "@halflap/checker/finding";
import { totalOf } from "@halflap/checker/weights";
import { findingSteps } from "../costs/weights.ts";
import { type Choice, costOf, type Lattice } from "../solver/lattice.ts";
import type { Allowed, Surcharge } from "../solver/limits.ts";
import type { MinPlus } from "../solver/min-plus.ts";
import { solve } from "../solver/solve.ts";
import type { Ground } from "./fit-ground.ts";
import { findingsWith, gripsIn } from "./made-answer.ts";

/** Rules that other grips can satisfy; the rest is about strums, fills and the form. */
export const gripRules: ReadonlySet<RuleId> = new Set<RuleId>([
  ...(["R01", "R02", "R03", "R04", "R05", "R06", "R07", "R08", "R09", "R10", "R11"] as const),
  ...(["R13", "R14", "R15", "R16", "R17", "R28", "R29", "R30", "R32"] as const),
]);

/** Those that tables only bound, or know nothing of: all others were weighed exactly. */
const loose: ReadonlySet<RuleId> = new Set<RuleId>(["R10", "R15", "R17", "R28", "R29", "R32"]);

export type Judged = {
  readonly choice: Choice;
  /** In steps. */
  readonly cost: number;
  readonly findings: readonly Finding[];
};

type Work = {
  readonly ground: Ground;
  readonly lattice: Lattice;
  readonly minPlus: MinPlus;
  readonly checker: Checker;
};

const roundsMax = 4;
/** What the grips that made it trouble cost more, in fixes. */
const dislike = 3;

/** The choice as the checker sees it, and better where that can be had nearby. */
export function repaired(work: Work, choice: Choice): Judged {
  let best = judged(work, choice);
  const disliked = new Map<number, Record<LaneId, Set<number>>>();
  for (let round = 0; round < roundsMax; round++) {
    const trouble = best.findings.filter(
      (finding) => loose.has(finding.rule) && isOfGrips(finding, work.ground),
    );
    if (trouble.length === 0) break;
    const next = solveWithout(work, best.choice, trouble, disliked);
    if (next === undefined) break;
    const other = judged(work, next);
    if (!isBetter(other, best)) break;
    best = other;
  }
  return best;
}

/** Whether a finding is a stop or a fix that other grips of the lanes that change could cure. */
export function isOfGrips(finding: Finding, { lanes }: Ground): boolean {
  const isGrave = finding.severity === "stop" || finding.severity === "fix";
  const isOurs = finding.lanes.some((lane) => lanes.includes(lane));
  return isGrave && isOurs && gripRules.has(finding.rule);
}

function judged({ ground, lattice, checker }: Work, choice: Choice): Judged {
  const findings = findingsWith(ground, gripsIn(ground, choice), checker);
  return { choice, cost: costOf(lattice, choice), findings };
}

function isBetter(one: Judged, other: Judged): boolean {
  const [weight, before] = [totalOf(one.findings), totalOf(other.findings)];
  return weight < before || (weight === before && one.cost < other.cost);
}

/** The cheapest choice that only differs where there is trouble, and dislikes what made it. */
function solveWithout(
  { ground, lattice, minPlus }: Work,
  choice: Choice,
  trouble: readonly Finding[],
  disliked: Map<number, Record<LaneId, Set<number>>>,
): Choice | undefined {
  const open = new Set<number>();
  for (const { slots, lanes } of trouble) {
    for (const slot of slots) {
      const place = ground.tune.placeOf.get(slot);
      if (place === undefined) continue;
      open.add(place);
      const here = disliked.get(place) ?? { upper: new Set<number>(), lower: new Set<number>() };
      disliked.set(place, here);
      for (const lane of lanes) here[lane].add(choice[lane][place] ?? 0);
    }
  }
  const allowed = new Map<number, Allowed>();
  const surcharge = lattice.places.map(({ upper, lower }, place): Surcharge => {
    const kept = { upper: [choice.upper[place] ?? 0], lower: [choice.lower[place] ?? 0] };
    if (!open.has(place)) allowed.set(place, kept);
    const here = disliked.get(place);
    const more = dislike * findingSteps(ground.tune.taste.weights, "fix");
    return {
      upper: disliking(here?.upper, upper, more),
      lower: disliking(here?.lower, lower, more),
    };
  });
  return solve(lattice, { minPlus, allowed, surcharge })?.choice;
}

function disliking(
  states: ReadonlySet<number> | undefined,
  size: number,
  more: number,
): Uint16Array | undefined {
  if (states === undefined || size < 2) return undefined;
  const costs = new Uint16Array(size);
  for (const state of states) costs[state] = more;
  return costs;
}
