/** The plain recursion over pairs of states, slow and plain to see: what the solver must equal. */
import { type Lattice, never } from "@halflap/fitter/lattice";

/** The least cost by the plain recursion over pairs of states, for each start where it is round. */
export function leastByPairs(lattice: Lattice, isRound: boolean): number {
  const own = lattice.places.map(({ pairs }) => Float64Array.from(pairs, real));
  const ways = lattice.links.map((_, index) => goingAlong(lattice, index));
  const last = lattice.places.length - 1;
  let least = Number.POSITIVE_INFINITY;
  for (const start of isRound ? (own[0]?.keys() ?? []) : [undefined]) {
    let costs: Float64Array = (own[0] ?? new Float64Array()).map((cost, pair) =>
      start === undefined || pair === start ? cost : Number.POSITIVE_INFINITY,
    );
    for (let place = 1; place <= last; place += 1) {
      costs = entered(costs, ways[place - 1] ?? [], own[place] ?? new Float64Array());
    }
    for (const [pair, cost] of costs.entries()) {
      const back = start === undefined ? 0 : (ways[last]?.[start]?.[pair] ?? 0);
      least = Math.min(least, cost + back);
    }
  }
  return least;
}

/** What each pair of a place costs at least, coming from any pair of the one before. */
function entered(
  costs: Float64Array,
  ways: readonly Float64Array[],
  own: Float64Array,
): Float64Array {
  return own.map((cost, to) => {
    const way = ways[to] ?? new Float64Array();
    let best = Number.POSITIVE_INFINITY;
    for (let from = 0; from < costs.length; from += 1) {
      best = Math.min(best, (costs[from] ?? 0) + (way[from] ?? 0));
    }
    return best + cost;
  });
}

/** A link's costs by pairs of states: for each pair entered, from each pair left. */
function goingAlong({ places, links }: Lattice, index: number): readonly Float64Array[] {
  const link = links[index];
  const [left, next] = [places[link?.from ?? 0], places[link?.to ?? 0]];
  if (link === undefined || left === undefined || next === undefined) return [];
  return Array.from(next.pairs, (_, to) =>
    Float64Array.from(left.pairs, (_, from) => {
      const upper = Math.floor(from / left.lower) * next.upper + Math.floor(to / next.lower);
      const lower = (from % left.lower) * next.lower + (to % next.lower);
      return real(link.upper?.[upper] ?? 0) + real(link.lower?.[lower] ?? 0);
    }),
  );
}

function real(cost: number): number {
  return cost >= never ? Number.POSITIVE_INFINITY : cost;
}
