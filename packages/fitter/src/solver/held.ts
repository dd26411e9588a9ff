/** A choice read off a field by its messages, place after place, and what it costs. */
import type { Field } from "./field.ts";
import { type Choice, never } from "./lattice.ts";
import { ruledOut, type Said } from "./min-plus.ts";
import { saidBy, type Way } from "./sweep.ts";

/** A choice, by states of the lattice, and its cost in steps. */
export type Held = { readonly choice: Choice; readonly cost: number };

/** The lane whose states are compared first where costs are equal. */
export type LaneFirst = "upper" | "lower";

export type Reading = {
  /** Pairs are passed over that by the field's slacks are only in choices that cost as much. */
  readonly below?: number;
  readonly first?: LaneFirst;
};

/**
 * The choice that each place makes knowing those before it (`there`) or after it (`back`), going by
 * what the edges ahead say; the smaller state on a tie. Undefined when that leads to a `never`.
 * After a sweep the other way it is the cheapest of all wherever places hang together as a tree.
 */
export function heldBy(field: Field, way: Way, reading: Reading = {}): Held | undefined {
  const { below = Infinity, first = "upper" } = reading;
  const count = field.spots.length;
  const upper = new Array<number>(count).fill(0);
  const lower = new Array<number>(count).fill(0);
  let total = 0;
  for (let step = 0; step < count; step += 1) {
    const place = way === "there" ? step : count - 1 - step;
    const found = holdAt(field, place, { way, below, first, held: { upper, lower } });
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

type Holding = Required<Reading> & { readonly way: Way; readonly held: Choice };

const noSlack = new Int32Array(0);

function holdAt(field: Field, place: number, going: Holding): HeldAt | undefined {
  const { way, held, below, first } = going;
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
  const leastColumn = columns.reduce((least, cost) => Math.min(least, cost), Infinity);
  const slack = field.slacks[place] ?? noSlack;
  const room = Math.min(ruledOut, below - (field.floors[place] ?? 0));
  const rank = (at: number) =>
    first === "upper" ? at : (at % width) * rows.length + Math.floor(at / width);
  let best = ruledOut;
  let bestAt = -1;
  for (let row = 0; row < rows.length; row += 1) {
    const more = rows[row] ?? ruledOut;
    // Nothing that is said is less than nothing: the row holds no better pair.
    if (more + leastColumn > best) continue;
    for (let column = 0, at = row * width; column < width; column += 1, at += 1) {
      if ((slack[at] ?? 0) >= room) continue;
      const own = more + (columns[column] ?? ruledOut) + (spot.costs[at] ?? ruledOut);
      const cost = own > best ? own : heard(own, at, ahead, best);
      if (cost < best || (cost === best && rank(at) < rank(bestAt))) {
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
