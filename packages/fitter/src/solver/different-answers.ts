/**
 * Answers that really differ: each the cheapest of all that are as unlike the earlier ones, by
 * Everett's multipliers (Operations Research 11, 1963).
 */
import { boundOf, type Field } from "./field.ts";
import { firstAnswer } from "./first-answer.ts";
import type { Held, LaneFirst } from "./held.ts";
import { type Choice, costOf, type Lattice } from "./lattice.ts";
import { ruledOut } from "./min-plus.ts";
import { windowOf } from "./narrow.ts";
import { type Found, halfRound, search } from "./search.ts";
import { settledBefore, settledOf } from "./settled.ts";
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
  /** The lane whose smaller state wins a tie for the first answer; the upper one if unsaid. */
  readonly first?: LaneFirst;
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
 * so on; fewer than asked where none is found. Multipliers never fall. What one proves is exact;
 * choices between two of them may stay unseen.
 */
export function differentAnswers(
  lattice: Lattice,
  options: DifferentOptions,
): readonly DifferentAnswer[] {
  const { minPlus, roundsMax = roundsUsual, allowed, count, first: lane = "upper" } = options;
  // More answers come out of what is said on the way, which has to be the same each time.
  const before = count === 1 && allowed === undefined ? settledBefore(lattice) : undefined;
  const settled = before ?? settledOf(lattice, { allowed }, { minPlus, first: lane });
  const found = settled && firstAnswer(settled, { minPlus, roundsMax, first: lane });
  if (settled === undefined || found === undefined || count < 1) return [];
  const first: DifferentAnswer = { ...found, distance: 1, multiplier: 0 };
  const answers = [first];
  const seen = [first.choice];
  let limit = first.cost + Math.max(1, Math.ceil(first.cost * firstWidth));
  while (answers.length < options.count) {
    const window = settled.window(limit + 1);
    if (window === undefined) break;
    const work: Work = { lattice, field: window, options, seen, charged: [] };
    const next = addFrom(work, answers, limit);
    if (answers.length === options.count || (next === undefined && limit >= settled.highest()))
      break;
    const width = next === undefined ? limit - first.cost : next.cost - first.cost;
    limit = first.cost + Math.ceil(width * (next === undefined ? widening : margin));
  }
  return answers;
}

/**
 * Adds answers as long as they cost at most the limit: nothing that costs as little was left out
 * of the window, so they are as good as any. The one that costs more, or undefined.
 */
function addFrom(
  work: Work,
  answers: DifferentAnswer[],
  limit: number,
): DifferentAnswer | undefined {
  while (answers.length < work.options.count) {
    const next = nextAnswer(work, answers);
    if (next === undefined || next.cost > limit) return next;
    answers.push(next);
  }
  return undefined;
}

/** Where the next answers are looked for first: so small a part dearer than the cheapest. */
const firstWidth = 1 / 32;
/** So many times as wide is the next window, where nothing says how wide it has to be. */
const widening = 16;
/** And so many times where an answer was found that costs too much: others will cost as much. */
const margin = 9 / 8;

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
  /**
   * All choices up to some cost. What was said in it for one multiplier is a good start for the
   * next.
   */
  readonly field: Field;
  readonly options: DifferentOptions;
  /** Every choice met on the way: the first guesses of the next search. */
  readonly seen: Choice[];
  /** By earlier answer: the multiplier that stands in the field's costs. */
  readonly charged: number[];
};

function nextAnswer(work: Work, earlier: readonly DifferentAnswer[]): DifferentAnswer | undefined {
  const at = (multiplier: number) => answerAt(work, earlier, multiplier);
  // What kept the last answer far from those before it is a good guess, and never gone below.
  let enough = Math.max(1, earlier[earlier.length - 1]?.multiplier ?? 1);
  let tooLow = enough;
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
  const { lattice, options, seen } = work;
  const charge = (choice: Choice) => multiplier * likeness(choice, earlier, options.weights);
  setCharges(work, earlier, multiplier);
  const known = seen
    .map((choice): Held => ({ choice, cost: costOf(lattice, choice) + charge(choice) }))
    .reduce<Held | undefined>((a, b) => (a === undefined || b.cost < a.cost ? b : a), undefined);
  const { best, bound } = cheapest(work.field, known, options);
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

/** The cheapest choice of the field, of which all states are kept. */
function cheapest(
  field: Field,
  known: Held | undefined,
  { minPlus, roundsMax = roundsUsual }: DifferentOptions,
): Pick<Found, "best" | "bound"> {
  let best = known;
  const take = (held: Held) => {
    if (held.cost < (best?.cost ?? Infinity)) best = held;
  };
  for (const way of ["there", "back"] as const) {
    if (!halfRound(field, way, { minPlus, best, take })) {
      return { best: undefined, bound: Infinity };
    }
    if (best !== undefined && boundOf(field) >= best.cost) return { best, bound: best.cost };
  }
  const left = windowOf(field, best?.cost ?? Infinity);
  if (left === undefined) return { best, bound: best?.cost ?? Infinity };
  return search(left, { minPlus, roundsMax, known: best });
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

/** Makes the states that earlier answers hold cost more, in place. */
function setCharges(
  { field, options, charged }: Work,
  earlier: readonly DifferentAnswer[],
  multiplier: number,
): void {
  for (const [nth, { choice }] of earlier.entries()) {
    const more = multiplier - (charged[nth] ?? 0);
    charged[nth] = multiplier;
    if (more === 0) continue;
    for (const [place, spot] of field.spots.entries()) {
      const { upper = 0, lower = 0 } = options.weights[place] ?? {};
      const row = spot.upper.indexOf(choice.upper[place] ?? -1);
      const column = spot.lower.indexOf(choice.lower[place] ?? -1);
      const width = spot.lower.length;
      for (let at = row * width; row >= 0 && at < (row + 1) * width; at += 1) {
        addTo(spot.costs, at, more * upper);
      }
      for (let at = column; column >= 0 && at < spot.costs.length; at += width) {
        addTo(spot.costs, at, more * lower);
      }
    }
  }
}

function addTo(costs: Int32Array, at: number, more: number): void {
  const cost = costs[at] ?? ruledOut;
  if (cost < ruledOut) costs[at] = cost + more;
}
