/**
 * A lattice looked through whole, and remembered: what its pairs cost at least they cost in every
 * lattice that is a part of it, as after a grip is locked.
 */
import { boundOf, type Field, fieldOf, type Limits } from "./field.ts";
import { type Held, heldBy } from "./held.ts";
import type { Lattice } from "./lattice.ts";
import { hasNoRings, type LeastOptions } from "./least-choice.ts";
import { highestIn, windowOf } from "./narrow.ts";
import { partIn } from "./part-in.ts";
import { sweep } from "./sweep.ts";

/** A lattice whose pairs are known by what any choice with them costs at least. */
export type Settled = {
  /** No choice costs less. */
  readonly bound: number;
  /** A choice that costs no more, where one was seen; `isFirst`: the first of all in order. */
  readonly seen: { readonly held: Held; readonly isFirst: boolean } | undefined;
  /** A field of its own with all choices that cost less; undefined where there are none. */
  readonly window: (ceiling: number) => Field | undefined;
  /** No pair's least is higher: a window beyond it holds everything. */
  readonly highest: () => number;
};

type Looked = { readonly lattice: Lattice; readonly field: Field };

/** The last one; one alone, as it holds some ten bytes for each pair. */
let last: Looked | undefined;

/** Looks through a lattice, once there and once back; undefined where nothing fits. */
export function settledOf(
  lattice: Lattice,
  limits: Limits,
  { minPlus, first }: LeastOptions,
): Settled | undefined {
  const field = fieldOf(lattice, limits, last?.field);
  last = undefined;
  if (!sweep(field, "there", minPlus) || !sweep(field, "back", minPlus)) return undefined;
  if (limits.allowed === undefined && limits.surcharge === undefined) last = { lattice, field };
  const bound = boundOf(field);
  const held = heldBy(field, "there", { below: bound + 1, first });
  return {
    bound,
    // Along a tree each place knows what all that follows costs: it picks the first that is least.
    seen: held?.cost === bound ? { held, isFirst: hasNoRings(field) } : undefined,
    window: (ceiling) => windowOf(field, ceiling),
    highest: () => highestIn(field),
  };
}

/** The same without a look, where it is a part of what was looked through last. */
export function settledBefore(lattice: Lattice): Settled | undefined {
  const looked = last;
  const part = looked && partIn(looked.lattice, lattice);
  if (looked === undefined || part === undefined) return undefined;
  const { field } = looked;
  return {
    bound: boundOf(field),
    seen: undefined,
    window: (ceiling) => {
      const window = windowOf(field, ceiling, part);
      return window && renamed(window, part);
    },
    highest: () => highestIn(field),
  };
}

/** States by their numbers in the part. */
function renamed(field: Field, part: ReturnType<typeof partIn>): Field {
  const named = (states: readonly number[], kept: readonly number[] | undefined) =>
    kept === undefined ? states : states.map((state) => kept.indexOf(state));
  const spots = field.spots.map((spot, place) => ({
    ...spot,
    upper: named(spot.upper, part?.[place]?.upper),
    lower: named(spot.lower, part?.[place]?.lower),
  }));
  return { ...field, spots };
}
