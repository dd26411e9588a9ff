/** A choice read off a field by its messages, place after place, and what it costs. */
import type { Field } from "./field.ts";
import { type Choice, never } from "./lattice.ts";
import { ruledOut, type Said } from "./min-plus.ts";
import { saidBy, type Way } from "./sweep.ts";

/** A choice, by states of the lattice, and its cost in steps. */
export type Held = { readonly choice: Choice; readonly cost: number };

/**
 * The choice that each place makes knowing those before it (`there`) or after it (`back`), going by
 * what the edges ahead say; the smaller state on a tie. Undefined when that leads to a `never`.
 * After a sweep the other way it is the cheapest of all wherever places hang together as a tree.
 */
export function heldBy(field: Field, way: Way): Held | undefined {
  const count = field.spots.length;
  const upper = new Array<number>(count).fill(0);
  const lower = new Array<number>(count).fill(0);
  let total = 0;
  for (let step = 0; step < count; step += 1) {
    const place = way === "there" ? step : count - 1 - step;
    const found = holdAt(field, place, { way, held: { upper, lower } });
    if (found === undefined) return undefined;
    upper[place] = found.upper;
    lower[place] = found.lower;
    total += found.cost;
  }
  const named = (states: readonly number[], lane: "upper" | "lower") =>
    states.map((state, place) => field.spots[place]?.[lane][state] ?? 0);
  return { choice: { upper: named(upper, "upper"), lower: named(lower, "lower") }, cost: total };
}

type HeldAt = { readonly upper: number; readonly lower: number; readonly cost: number };

type Holding = { readonly way: Way; readonly held: Choice };

function holdAt(field: Field, place: number, going: Holding): HeldAt | undefined {
  const { way, held } = going;
  const spot = field.spots[place];
  if (spot === undefined) return undefined;
  const behind = way === "there" ? spot.before : spot.after;
  const rows = costsFrom(field, behind, way, "upper", { held, count: spot.upper.length });
  const columns = costsFrom(field, behind, way, "lower", { held, count: spot.lower.length });
  const said = way === "there" ? field.toLow : field.toHigh;
  const ahead = (way === "there" ? spot.after : spot.before)
    .flatMap((index) => said[index] ?? [])
    .map(saidBy);
  const width = columns.length;
  const [byRow, byColumn] = [nearestFirst(rows), nearestFirst(columns)];
  const leastColumn = columns[byColumn[0] ?? 0] ?? 0;
  let best = ruledOut;
  let bestAt = -1;
  for (const row of byRow) {
    const more = rows[row] ?? ruledOut;
    // Nothing that is said is less than nothing: no row from here on holds a better pair.
    if (more + leastColumn > best) break;
    for (const column of byColumn) {
      const come = more + (columns[column] ?? ruledOut);
      if (come > best) break;
      const at = row * width + column;
      const own = come + (spot.costs[at] ?? ruledOut);
      const cost = own > best ? own : heard(own, at, ahead, best);
      if (cost < best || (cost === best && at < bestAt)) {
        best = cost;
        bestAt = at;
      }
    }
  }
  if (bestAt < 0) return undefined;
  const [upper, lower] = [Math.floor(bestAt / width), bestAt % width];
  const own = (spot.costs[bestAt] ?? ruledOut) + (rows[upper] ?? 0) + (columns[lower] ?? 0);
  return own >= ruledOut ? undefined : { upper, lower, cost: own };
}

/** The states by what they cost, the smaller first on a tie. */
function nearestFirst(costs: Float64Array): Uint16Array {
  // Sorted as numbers, which hold a cost of 2^28 for every link and a state beside it.
  const keys = costs.map((cost, state) => cost * statesMax + state).sort();
  return Uint16Array.from(keys, (key) => key % statesMax);
}

/** More than any place has. */
const statesMax = 2 ** 16;

/** A cost with all that is said on top, or what is above `most` already. */
function heard(own: number, at: number, said: readonly Said[], most: number): number {
  let cost = own;
  for (const { values, outFrom } of said) {
    if (cost > most) return cost;
    const value = values[at] ?? 0;
    cost = value >= outFrom ? ruledOut : cost + value;
  }
  return cost;
}

/** What each state of a lane costs to come to from the states already held. */
function costsFrom(
  field: Field,
  edges: readonly number[],
  way: Way,
  lane: "upper" | "lower",
  { held, count }: { readonly held: Choice; readonly count: number },
): Float64Array {
  const sums = new Float64Array(count);
  for (const index of edges) {
    const edge = field.edges[index];
    if (edge === undefined) continue;
    const [from, crossing] =
      way === "there" ? [edge.low, edge[lane].there] : [edge.high, edge[lane].back];
    const start = (held[lane][from] ?? 0) * count;
    for (let state = 0; state < count; state += 1) {
      const cost = crossing[start + state] ?? 0;
      sums[state] = (sums[state] ?? 0) + (cost >= never ? ruledOut : cost);
    }
  }
  return sums;
}
