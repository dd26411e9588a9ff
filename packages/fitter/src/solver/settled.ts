/**
 * A lattice looked through whole, and remembered: what its pairs cost at least they cost in every
 * lattice that is a part of it, as after a grip is locked.
 */
import { boundOf, type Field, fieldOf, type Limits } from "./field.ts";
import type { Lattice } from "./lattice.ts";
import type { MinPlus } from "./min-plus.ts";
import { highestIn, windowOf } from "./narrow.ts";
import { partIn } from "./part-in.ts";
import { sweep } from "./sweep.ts";

/** A lattice whose pairs are known by what any choice with them costs at least. */
export type Settled = {
  /** No choice costs less. */
  readonly bound: number;
  /** A field of its own with all choices that cost less; undefined where there are none. */
  readonly window: (ceiling: number) => Field | undefined;
  /** No pair's least is higher: a window beyond it holds everything. */
  readonly highest: () => number;
};

type Looked = { readonly lattice: Lattice; readonly field: Field };

/** The last one; one alone, as it holds some ten bytes for each pair. */
let last: Looked | undefined;

/** Looks through a lattice, once there and once back; undefined where nothing fits. */
export function settledOf(lattice: Lattice, limits: Limits, minPlus: MinPlus): Settled | undefined {
  const field = fieldOf(lattice, limits, last?.field);
  last = undefined;
  if (!sweep(field, "there", minPlus) || !sweep(field, "back", minPlus)) return undefined;
  if (limits.allowed === undefined && limits.surcharge === undefined) last = { lattice, field };
  return {
    bound: boundOf(field),
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
