/**
 * A tune as the solver sees it: places with the states of both lanes, and what each state and each
 * way from place to place costs. Numbers only; nothing here knows what a grip is.
 */

/** Costs are whole steps of a sixteenth of a semitone of motion. */
export const stepsPerSemitone = 16;

/** A cost from here on means "never": no answer may hold it. */
export const never = 60_000;

/** One slot of the chart. Times it is played are counted in its costs already. */
export type Place = {
  /** Number of states of each lane, at least 1: its grips, or one when it has no choice. */
  readonly upper: number;
  readonly lower: number;
  /**
   * What each pair of states costs, in steps, 0 to `never`; upper * lower values, row by row of the
   * upper lane's states.
   */
  readonly pairs: Uint16Array;
};

/** A way the tune goes from one place to another, each lane at its own cost. */
export type Link = {
  /** Indexes of places; they may be the same (a section of one slot, played again). */
  readonly from: number;
  readonly to: number;
  /** In steps, 0 to `never`; row by row of the states left. `undefined` = going costs nothing. */
  readonly upper: Uint16Array | undefined;
  readonly lower: Uint16Array | undefined;
};

/**
 * The places in chart order, and each different way between two of them once, however often it is
 * played. Repeats, seams between sections and the way back to the top make it a graph, not a chain.
 */
export type Lattice = { readonly places: readonly Place[]; readonly links: readonly Link[] };

/** A state for each lane in each place. */
export type Choice = { readonly upper: readonly number[]; readonly lower: readonly number[] };

/** What a choice costs altogether, in steps; `never` anywhere in it makes it Infinity. */
export function costOf(lattice: Lattice, choice: Choice): number {
  let total = 0;
  for (const [index, place] of lattice.places.entries()) {
    const [upper, lower] = [choice.upper[index] ?? 0, choice.lower[index] ?? 0];
    total += counted(place.pairs[upper * place.lower + lower]);
  }
  for (const { from, to, upper, lower } of lattice.links) {
    total += crossing(upper, choice.upper, from, to, lattice.places[to]?.upper);
    total += crossing(lower, choice.lower, from, to, lattice.places[to]?.lower);
  }
  return total;
}

function crossing(
  costs: Uint16Array | undefined,
  states: readonly number[],
  from: number,
  to: number,
  width = 0,
): number {
  if (costs === undefined) return 0;
  return counted(costs[(states[from] ?? 0) * width + (states[to] ?? 0)]);
}

function counted(cost: number | undefined): number {
  return cost === undefined || cost >= never ? Number.POSITIVE_INFINITY : cost;
}
