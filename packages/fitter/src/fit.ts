/** The best parts for a board: one lane around the other as it is, or both at once. */
import { type Board, laneIds } from "@halflap/board/board";
import { makeChecker } from "@halflap/checker/check";
import { printGrip } from "@halflap/theory/grip";
import {
  type Answer,
  answersMax,
  type Costs,
  type FitProgress,
  type FitRequest,
  type FitResult,
} from "./answer.ts";
import { type Ground, groundOf } from "./answers/fit-ground.ts";
import { gripsIn, madeAnswer } from "./answers/made-answer.ts";
import { repaired } from "./answers/repair.ts";
import { costsOf } from "./answers/told-costs.ts";
import { weightsFor } from "./costs/leanings.ts";
import { costParts, latticeOf, tuneOf } from "./costs/tune-costs.ts";
import type { Weights } from "./costs/weights.ts";
import {
  type DifferentAnswer,
  differentAnswers,
  type PlaceWeights,
} from "./solver/different-answers.ts";
import type { Lattice } from "./solver/lattice.ts";
import type { MinPlus } from "./solver/min-plus.ts";

/** What the shell lends: the fast product, and an ear for progress. */
export type FitTools = {
  readonly minPlus: MinPlus;
  readonly onProgress?: (progress: FitProgress) => void;
};

/** An answer differs from every earlier one in this share of what is played, at least. */
export const distanceLeast = 0.25;

/**
 * Answers for the board under the wishes of its lanes, exact over all grips that the neck has for
 * them; deterministic. To cancel, end the worker it runs in. SPEC.md F20 to F34.
 */
export function fit(board: Board, request: FitRequest, tools: FitTools): FitResult {
  return fitUnder(board, request, tools, weightsFor(request.leaning));
}

/** The same under weights of one's own. */
export function fitUnder(
  board: Board,
  request: FitRequest,
  tools: FitTools,
  weights: Weights,
): FitResult {
  const tell = (done: number, words: string) => tools.onProgress?.({ done, words });
  tell(0, "Looking for grips");
  const ground = groundOf(board, request, weights);
  if ("kind" in ground) return ground;
  tell(0.1, "Weighing them against each other");
  const lattice = latticeOf(ground.tune);
  tell(0.5, "Looking for the best parts");
  const found = differentAnswers(lattice, {
    minPlus: tools.minPlus,
    count: Math.min(answersMax, Math.max(1, Math.floor(request.answers))),
    weights: playedWeights(ground),
    least: distanceLeast,
    // Lanes swapped, the tie goes the other way too.
    first: ground.tune.taste.high,
  });
  tell(0.9, "Checking them");
  const answers = answersFrom(ground, lattice, found, tools.minPlus);
  tell(1, "Done");
  return { kind: "answers", answers, present: presentCosts(ground), skipped: ground.skipped };
}

/** Remembers what it was asked last: boards that are fitted again have most of it still. */
const checker = makeChecker();

/** Each answer checked, and mended where its grips still make trouble; each part once. */
function answersFrom(
  ground: Ground,
  lattice: Lattice,
  found: readonly DifferentAnswer[],
  minPlus: MinPlus,
): readonly Answer[] {
  const answers = new Map<string, Answer>();
  for (const { choice, bound, distance } of found) {
    const { findings, choice: kept } = repaired({ ground, lattice, minPlus, checker }, choice);
    const apart = answers.size === 0 ? fromPresent(ground, kept) : distance;
    const answer = madeAnswer(ground, kept, { bound, distance: apart, findings });
    if (answer !== undefined && !answers.has(answer.id)) answers.set(answer.id, answer);
  }
  return [...answers.values()].sort((one, other) => one.costs.total - other.costs.total);
}

/**
 * How much each place and lane counts in a distance: as long as it is heard and may change. The
 * longest whole measure of all of them is one, so that few multipliers lie between two answers.
 */
function playedWeights({ tune }: Ground): readonly PlaceWeights[] {
  const lasting = tune.places.map(({ lists, times, length }) => {
    const of = (lane: "upper" | "lower") =>
      (lists[lane]?.grips.length ?? 0) > 1 ? length * times[lane] : 0;
    return { upper: of("upper"), lower: of("lower") };
  });
  const unit = Math.max(
    1,
    lasting.reduce((least, { upper, lower }) => measure(measure(least, upper), lower), 0),
  );
  return lasting.map(({ upper, lower }) => ({ upper: upper / unit, lower: lower / unit }));
}

/** The greatest whole number that measures both. */
function measure(one: number, other: number): number {
  return other === 0 ? one : measure(other, one % other);
}

/** The share of what may change that holds another grip than the board does. */
function fromPresent(ground: Ground, choice: Parameters<typeof gripsIn>[1]): number {
  const grips = gripsIn(ground, choice);
  let [differing, all] = [0, 0];
  for (const [index, weight] of playedWeights(ground).entries()) {
    const slot = ground.tune.places[index]?.slot;
    for (const lane of laneIds) {
      all += weight[lane];
      const [grip, before] = slot
        ? [grips(lane, slot), ground.ready.lanes[lane].grips.get(slot)]
        : [undefined, undefined];
      const isSame = grip !== undefined && before && printGrip(grip) === printGrip(before);
      if (!isSame) differing += weight[lane];
    }
  }
  return all === 0 ? 0 : differing / all;
}

/** What the board costs as it is, its capos where they are. */
function presentCosts(ground: Ground): Costs | undefined {
  const { board, ready, choices, tune } = ground;
  const held = (lane: "upper" | "lower", slot: Parameters<typeof tune.placeOf.get>[0]) =>
    board.lanes[lane].grips.get(slot);
  const isWhole = laneIds.every((lane) =>
    [...choices[lane].keys()].every((slot) => held(lane, slot) !== undefined),
  );
  if (!isWhole) return undefined;
  const nothing = { upper: new Map(), lower: new Map() };
  const asItIs = ready === board ? tune : tuneOf(board, nothing, tune.taste.weights);
  return costsOf(costParts(asItIs, held));
}
