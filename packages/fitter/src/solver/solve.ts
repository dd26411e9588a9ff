/** The cheapest choice of a lattice, with proof: what no choice can be below. */
import { fieldOf } from "./field.ts";
import type { Choice, Lattice } from "./lattice.ts";
import type { Allowed, Surcharge } from "./limits.ts";
import type { MinPlus } from "./min-plus.ts";
import { search } from "./search.ts";

/** The best choice found, and how much is known about it. */
export type Solution = {
  readonly choice: Choice;
  /** In steps. */
  readonly cost: number;
  /** No choice costs less, in steps; the cost itself when the choice is proven best. */
  readonly bound: number;
  /** Rounds through all links that it took. */
  readonly rounds: number;
};

export type SolveOptions = {
  readonly minPlus: MinPlus;
  /** Rounds after which the best so far is given, with its bound. */
  readonly roundsMax?: number;
  /** Added to the pair costs in each place, in steps, for each lane's states: what is disliked. */
  readonly surcharge?: readonly Surcharge[];
  /** States that may be held, by place; missing = all. */
  readonly allowed?: ReadonlyMap<number, Allowed>;
};

/**
 * The cheapest choice, the surcharge counted in; undefined when every choice holds a `never`, or
 * when none was found in `roundsMax`.
 */
export function solve(lattice: Lattice, options: SolveOptions): Solution | undefined {
  const { minPlus, roundsMax = roundsUsual, ...limits } = options;
  const { best, bound, rounds } = search(fieldOf(lattice, limits), { minPlus, roundsMax });
  return best && { ...best, bound, rounds };
}

/** Far more than any tune has needed; a limit all the same. */
export const roundsUsual = 2000;
