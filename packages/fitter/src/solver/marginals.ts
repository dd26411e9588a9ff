/** What each other state of a place would cost, everything else free to follow. */
import { slackOf } from "./doubt.ts";
import { boundOf, type Field, fieldOf } from "./field.ts";
import { type Held, heldBy } from "./held.ts";
import type { Lattice } from "./lattice.ts";
import { narrowed, partOf } from "./narrow.ts";
import { halfRound, search } from "./search.ts";
import { roundsUsual, type SolveOptions } from "./solve.ts";

export type MarginalOptions = SolveOptions & {
  readonly place: number;
  readonly lane: "upper" | "lower";
  /** How many states are asked for, the cheapest; missing = all. */
  readonly most?: number;
};

/** The cheapest choice that holds a state, by its number in the lattice. */
export type Marginal = Held & { readonly state: number };

/**
 * The states of a lane in a place with the cheapest choice that holds each, exact within
 * `roundsMax` each; the cheapest first, the smaller state on a tie. States that no choice can hold
 * are left out.
 */
export function marginals(lattice: Lattice, options: MarginalOptions): readonly Marginal[] {
  const { place, lane, minPlus, most = Number.POSITIVE_INFINITY, ...limits } = options;
  const root = fieldOf(lattice, limits);
  if (!settled(root, options)) return [];
  const spot = root.spots[place];
  const slack = root.slacks[place];
  if (spot === undefined || slack === undefined) return [];
  const more = slackOf(spot, slack, lane);
  const order = [...more.keys()].sort((a, b) => (more[a] ?? 0) - (more[b] ?? 0) || a - b);
  let found: readonly Marginal[] = [];
  for (const state of order) {
    const atLeast = (root.floors[place] ?? 0) + (more[state] ?? 0);
    const dearest = found.length >= most ? found[found.length - 1]?.cost : undefined;
    if (atLeast === Number.POSITIVE_INFINITY || (dearest ?? atLeast) < atLeast) break;
    const held = cheapestIn(partOf(root, { place, [lane]: [state] }), atLeast, options);
    if (held === undefined) continue;
    const marginal = { ...held, state: spot[lane][state] ?? 0 };
    found = [...found, marginal]
      .sort((a, b) => a.cost - b.cost || a.state - b.state)
      .slice(0, most);
  }
  return found;
}

/**
 * Rounds over a field until they prove its cheapest choice or gain nothing more, all states kept.
 * False where nothing fits.
 */
function settled(field: Field, { minPlus }: Pick<SolveOptions, "minPlus">): boolean {
  let best: Held | undefined;
  const take = (held: Held) => {
    if (held.cost < (best?.cost ?? Infinity)) best = held;
  };
  for (let before = -1; boundOf(field) > before && before < (best?.cost ?? Infinity); ) {
    before = boundOf(field);
    // Both halves, whatever the first one proves: the slacks of all states are asked for.
    if (!halfRound(field, "there", { minPlus, best, take })) return false;
    if (!halfRound(field, "back", { minPlus, best, take })) return false;
  }
  return true;
}

/** The cheapest choice of a part whose field was settled before it was cut. */
function cheapestIn(
  part: Field,
  settledAt: number,
  { minPlus, roundsMax }: SolveOptions,
): Held | undefined {
  const guesses = (["there", "back"] as const).flatMap((way) => heldBy(part, way) ?? []);
  const known = guesses.sort((a, b) => a.cost - b.cost)[0];
  const left = known === undefined ? part : narrowed(part, known.cost);
  if (left === undefined) return known;
  return search(left, { minPlus, roundsMax: roundsMax ?? roundsUsual, known, settledAt }).best;
}
