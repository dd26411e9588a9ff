/**
 * Lattices made by chance: open and round, with sections played again, ways side by side, `never`.
 */
import { type Choice, costOf, type Lattice, type Link, never } from "@halflap/fitter/lattice";
import type { Allowed } from "@halflap/fitter/limits";
import type { Chance } from "./seeded.ts";

export type Shape = {
  readonly places: number;
  /** Each lane of each place has 1 to so many states; exactly so many where `isFull`. */
  readonly states: number;
  readonly isFull?: boolean;
  readonly isRound: boolean;
  /** Further ways between any two places. */
  readonly ways: number;
  /** Costs are below this. */
  readonly costs: number;
  readonly nevers: number;
};

/** A small one of any kind, so that all its choices can be tried. */
export function smallShape(chance: Chance): Shape {
  return {
    places: 1 + chance.below(5),
    states: 3,
    isRound: chance.happens(0.6),
    ways: chance.below(4),
    costs: chance.pick([3, 10, 200, never]),
    nevers: chance.pick([0, 0, 0.1, 0.4, 0.7]),
  };
}

/** A lattice of that shape. */
export function randomLattice(chance: Chance, shape: Shape): Lattice {
  const cost = () => (chance.happens(shape.nevers) ? never : chance.below(shape.costs));
  const count = () => (shape.isFull ? shape.states : 1 + chance.below(shape.states));
  const places = Array.from({ length: shape.places }, () => {
    const [upper, lower] = [count(), count()];
    return { upper, lower, pairs: Uint16Array.from({ length: upper * lower }, cost) };
  });
  const between = (from: number, to: number): Link => {
    const lane = (name: "upper" | "lower") => {
      const length = (places[from]?.[name] ?? 0) * (places[to]?.[name] ?? 0);
      return chance.happens(0.1) ? undefined : Uint16Array.from({ length }, cost);
    };
    return { from, to, upper: lane("upper"), lower: lane("lower") };
  };
  const chain = places.slice(1).map((_, place) => between(place, place + 1));
  const back = shape.isRound ? [between(places.length - 1, 0)] : [];
  const more = Array.from({ length: shape.ways }, () =>
    between(chance.below(places.length), chance.below(places.length)),
  );
  return { places, links: [...chain, ...back, ...more] };
}

/** Some places held to some of their states. */
export function randomLocks(chance: Chance, lattice: Lattice): ReadonlyMap<number, Allowed> {
  const some = (states: number) =>
    chance.happens(0.5)
      ? undefined
      : Array.from({ length: states }, (_, state) => state).filter(
          (state) => state === states - 1 || chance.happens(0.5),
        );
  const locks = lattice.places.map((place, index): readonly [number, Allowed] => [
    index,
    { upper: some(place.upper), lower: some(place.lower) },
  ]);
  return new Map(locks.filter(() => chance.happens(0.4)));
}

/** Every choice of a small lattice, with its cost. */
export function allChoices(
  lattice: Lattice,
): readonly { readonly choice: Choice; readonly cost: number }[] {
  let rows: readonly Choice[] = [{ upper: [], lower: [] }];
  for (const place of lattice.places) {
    rows = rows.flatMap((row) =>
      [...place.pairs.keys()].map((pair) => ({
        upper: [...row.upper, Math.floor(pair / place.lower)],
        lower: [...row.lower, pair % place.lower],
      })),
    );
  }
  return rows.map((choice) => ({ choice, cost: costOf(lattice, choice) }));
}

/** Whether a choice keeps to locks. */
export function isAllowed(choice: Choice, locks: ReadonlyMap<number, Allowed>): boolean {
  return [...locks].every(
    ([place, { upper, lower }]) =>
      (upper?.includes(choice.upper[place] ?? -1) ?? true) &&
      (lower?.includes(choice.lower[place] ?? -1) ?? true),
  );
}
