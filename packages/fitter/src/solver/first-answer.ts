/** The cheapest choice of a lattice, out of a window that widens until it must be in it. */
import type { Held, LaneFirst } from "./held.ts";
import { leastChoice } from "./least-choice.ts";
import type { MinPlus } from "./min-plus.ts";
import { search } from "./search.ts";
import type { Settled } from "./settled.ts";

/** The first choice, with what no choice is below. */
export type FirstAnswer = Held & { readonly bound: number };

export type FirstOptions = {
  readonly minPlus: MinPlus;
  readonly roundsMax: number;
  /** The lane whose smaller state wins a tie. */
  readonly first: LaneFirst;
};

/**
 * The cheapest choice; of those that cost as little the first in order, however it was found.
 * Undefined where there is none, or none was found in so many rounds.
 */
export function firstAnswer(settled: Settled, options: FirstOptions): FirstAnswer | undefined {
  const { bound, seen } = settled;
  if (seen !== undefined) {
    return { ...(seen.isFirst ? seen.held : inOrder(settled, seen.held, options)), bound };
  }
  let limit = bound + Math.max(1, Math.ceil(bound * firstWidth));
  for (;;) {
    const window = settled.window(limit + 1);
    const found = window && search(window, options);
    const best = found?.best;
    // Nothing that costs at most the limit was left out.
    if (best !== undefined && best.cost <= limit) {
      const isProven = found?.bound === best.cost;
      return { ...(isProven ? inOrder(settled, best, options) : best), bound: found?.bound ?? 0 };
    }
    if (best === undefined && limit >= settled.highest()) return undefined;
    limit = best?.cost ?? bound + (limit - bound) * widening;
  }
}

function inOrder(settled: Settled, best: Held, options: FirstOptions): Held {
  const window = settled.window(best.cost + 1);
  return (window && leastChoice(window, best.cost, options)) ?? best;
}

/** So small a part above the bound is looked through first, and so many times as much next. */
const firstWidth = 1 / 64;
const widening = 16;
