/**
 * Answers that really differ: each the cheapest of all that are as unlike the earlier ones, by
 * Everett's multipliers (Operations Research 11, 1963).
 */
import { type Field, fieldOf } from "./field.ts";
import type { Held } from "./held.ts";
import { type Choice, costOf, type Lattice } from "./lattice.ts";
import { settled } from "./marginals.ts";
import { ruledOut } from "./min-plus.ts";
import { narrowed, partOf } from "./narrow.ts";
import { search } from "./search.ts";
import { roundsUsual, type SolveOptions } from "./solve.ts";

/** How much it counts that a place holds another state, by lane; whole numbers from 0. */
export type PlaceWeights = { readonly upper: number; readonly lower: number };

export type DifferentOptions = Pick<SolveOptions, "minPlus" | "roundsMax" | "allowed"> & {
  /** How many answers are asked for. */
  readonly count: number;
  /** By place. */
  readonly weights: readonly PlaceWeights[];
  /** The least distance of an answer from every earlier one, 0..1. */
  readonly least: number;
};

export type DifferentAnswer = {
  readonly choice: Choice;
  /** In steps. */
  readonly cost: number;
  /** No choice as unlike the earlier ones (by `multiplier`) costs less, in steps. */
  readonly bound: number;
  /** From the earlier answer most like it, 0..1; 1 for the first. */
  readonly distance: number;
  /**
   * In steps a unit of weight. What is proven: no choice whose likenesses to the earlier answers,
   * in weight and added up, are no more than this one's costs less. 0 for the first.
   */
  readonly multiplier: number;
};

/**
 * The cheapest choice, then the cheapest found that keeps the distance from every earlier one, and
 * so on; fewer than asked where none is found. What the multiplier proves is exact; choices between
 * two multipliers may stay unseen.
 */
export function differentAnswers(
  lattice: Lattice,
  options: DifferentOptions,
): readonly DifferentAnswer[] {
  const root = fieldOf(lattice, { allowed: options.allowed });
  if (!settled(root, options)) return [];
  const seen: Choice[] = [];
  const answers: DifferentAnswer[] = [];
  while (answers.length < options.count) {
    const next = nextAnswer({ lattice, root, options, seen }, answers);
    if (next === undefined) break;
    answers.push(next);
  }
  return answers;
}

/** The share of all weight that lies on places and lanes where two choices hold other states. */
export function distanceOf(a: Choice, b: Choice, weights: readonly PlaceWeights[]): number {
  let [differing, all] = [0, 0];
  for (const [place, weight] of weights.entries()) {
    for (const lane of ["upper", "lower"] as const) {
      all += weight[lane];
      if (a[lane][place] !== b[lane][place]) differing += weight[lane];
    }
  }
  return all === 0 ? 0 : differing / all;
}

type Work = {
  readonly lattice: Lattice;
  readonly root: Field;
  readonly options: DifferentOptions;
  /** Every choice met on the way: the first guesses of the next search. */
  readonly seen: Choice[];
};

function nextAnswer(work: Work, earlier: readonly DifferentAnswer[]): DifferentAnswer | undefined {
  const at = (multiplier: number) => answerAt(work, earlier, multiplier);
  if (earlier.length === 0) return at(0);
  let tooLow = 0;
  let enough = Math.max(1, earlier[earlier.length - 1]?.multiplier ?? 1);
  let found = at(enough);
  while (!isFar(found, work.options)) {
    tooLow = enough;
    enough *= 2;
    if (enough > multiplierMax(work, earlier.length)) return undefined;
    found = at(enough);
  }
  while (enough - tooLow > 1) {
    const middle = Math.floor((tooLow + enough) / 2);
    const tried = at(middle);
    if (isFar(tried, work.options)) [enough, found] = [middle, tried];
    else tooLow = middle;
  }
  return found;
}

function isFar(answer: DifferentAnswer | undefined, { least }: DifferentOptions): boolean {
  return answer === undefined || answer.distance >= least;
}

/** Beyond this a likeness costs more than 1,250 semitones in one place: there is nothing unlike. */
function multiplierMax({ options }: Work, earlier: number): number {
  const most = Math.max(1, ...options.weights.flatMap(({ upper, lower }) => [upper, lower]));
  return Math.max(1, Math.floor(20_000 / most / earlier));
}

/** The cheapest choice when each unit of likeness to an earlier answer costs the multiplier. */
function answerAt(
  work: Work,
  earlier: readonly DifferentAnswer[],
  multiplier: number,
): DifferentAnswer | undefined {
  const { lattice, root, options, seen } = work;
  const charge = (choice: Choice) => multiplier * likeness(choice, earlier, options.weights);
  const field = charged(root, earlier, options.weights, multiplier);
  const known = seen
    .map((choice): Held => ({ choice, cost: costOf(lattice, choice) + charge(choice) }))
    .reduce<Held | undefined>((a, b) => (a === undefined || b.cost < a.cost ? b : a), undefined);
  const left = known === undefined ? field : narrowed(field, known.cost);
  const { minPlus, roundsMax = roundsUsual } = options;
  const { best, bound } =
    left === undefined
      ? { best: known, bound: known?.cost ?? 0 }
      : search(left, { minPlus, roundsMax, known });
  if (best === undefined) return undefined;
  seen.push(best.choice);
  const distances = earlier.map(({ choice }) => distanceOf(best.choice, choice, options.weights));
  const more = charge(best.choice);
  return {
    choice: best.choice,
    cost: best.cost - more,
    bound: bound - more,
    distance: Math.min(1, ...distances),
    multiplier,
  };
}

/** The weight that a choice shares with the earlier answers, added up over them. */
function likeness(
  choice: Choice,
  earlier: readonly DifferentAnswer[],
  weights: readonly PlaceWeights[],
): number {
  let sum = 0;
  for (const answer of earlier) {
    for (const [place, weight] of weights.entries()) {
      if (answer.choice.upper[place] === choice.upper[place]) sum += weight.upper;
      if (answer.choice.lower[place] === choice.lower[place]) sum += weight.lower;
    }
  }
  return sum;
}

/** A copy of the field in which states that an earlier answer holds cost more. */
function charged(
  root: Field,
  earlier: readonly DifferentAnswer[],
  weights: readonly PlaceWeights[],
  multiplier: number,
): Field {
  const field = partOf(root);
  if (multiplier === 0) return field;
  for (const [place, { upper, lower, costs }] of field.spots.entries()) {
    const slack = field.slacks[place] ?? new Int32Array(0);
    const moreOf = (lane: "upper" | "lower", state: number) =>
      multiplier *
      (weights[place]?.[lane] ?? 0) *
      earlier.filter(({ choice }) => choice[lane][place] === state).length;
    const others = lower.map((state) => moreOf("lower", state));
    for (const [row, state] of upper.entries()) {
      const own = moreOf("upper", state);
      for (const [column, other] of others.entries()) {
        const at = row * lower.length + column;
        const more = own + other;
        if (more === 0 || (costs[at] ?? ruledOut) >= ruledOut) continue;
        costs[at] = (costs[at] ?? 0) + more;
        // What a pair costs more than the bound at least, it does still, and this on top.
        slack[at] = (slack[at] ?? 0) + more;
      }
    }
  }
  return field;
}
