/**
 * One sweep of sequential tree-reweighted message passing (Kolmogorov, PAMI 28, 2006) through the
 * places, in chart order or against it, in whole steps.
 */
import { type Edge, type Field, type Message, ruledOut, type Spot } from "./field.ts";
import { never } from "./lattice.ts";
import type { MinPlus } from "./min-plus.ts";

/** In chart order, or against it. */
export type Way = "there" | "back";

/**
 * Lets each place in turn take in what its neighbours say, keep its share, and give the rest to the
 * edges ahead. The field's bound never falls. A sweep back leaves the slacks. False when some place
 * has no state left, so that nothing fits.
 */
export function sweep(field: Field, way: Way, minPlus: MinPlus): boolean {
  const last = field.spots.length - 1;
  for (let step = 0; step <= last; step += 1) {
    if (!visit(field, way === "there" ? step : last - step, way, minPlus)) return false;
  }
  return true;
}

function visit(field: Field, place: number, way: Way, minPlus: MinPlus): boolean {
  const spot = field.spots[place];
  const slack = field.slacks[place];
  if (spot === undefined || slack === undefined) return false;
  const base = gather(field, spot, slack);
  const best = leastOf(slack);
  if (best >= ruledOut) return false;
  field.rests[place] = best + base;
  field.floors[place] = field.rests.reduce((sum, rest) => sum + rest, 0);
  for (let at = 0; at < slack.length; at += 1) {
    const cost = slack[at] ?? ruledOut;
    slack[at] = cost >= ruledOut ? ruledOut : cost - best;
  }
  const ahead = way === "there" ? spot.after : spot.before;
  const shares = Math.max(spot.before.length, spot.after.length);
  for (const [nth, index] of ahead.entries()) {
    const edge = field.edges[index];
    const [heard, told] =
      way === "there" ? [field.toLow, field.toHigh] : [field.toHigh, field.toLow];
    const [from, to] = [heard[index], told[index]];
    if (edge === undefined || from === undefined || to === undefined) continue;
    // The last edge takes what whole shares leave over, unless some is kept for the other side.
    const isRemainder = nth === shares - 1;
    const given = give(slack, from, shares, isRemainder);
    carry({ field, edge, way, minPlus, given: given.values, out: to.values });
    to.base = given.base;
    to.isHard = edge.upper.most + edge.lower.most + given.most < never;
  }
  return true;
}

/** Writes the costs of a place with all that is said to it; returns the constant beside them. */
function gather(field: Field, spot: Spot, out: Int32Array): number {
  out.set(spot.costs);
  let base = 0;
  for (const index of spot.before) base += hear(field.toHigh[index], out);
  for (const index of spot.after) base += hear(field.toLow[index], out);
  return base;
}

function hear(message: Message | undefined, out: Int32Array): number {
  if (message === undefined) return 0;
  const { values, base, isHard } = message;
  for (let at = 0; at < out.length; at += 1) {
    const value = values[at] ?? 0;
    out[at] = isHard && value >= never ? ruledOut : (out[at] ?? 0) + value;
  }
  return base;
}

function leastOf(costs: Int32Array): number {
  let best = ruledOut;
  for (let at = 0; at < costs.length; at += 1) {
    const cost = costs[at] ?? ruledOut;
    if (cost < best) best = cost;
  }
  return best;
}

type Given = { readonly values: Uint16Array; readonly base: number; readonly most: number };

/** A place's share for an edge, less what the edge itself said: values + base. */
function give(slack: Int32Array, heard: Message, shares: number, isRemainder: boolean): Given {
  const net = new Int32Array(slack.length);
  const said = heard.values;
  let best = ruledOut;
  for (let at = 0; at < slack.length; at += 1) {
    const own = slack[at] ?? ruledOut;
    if (own >= ruledOut) {
      net[at] = ruledOut;
      continue;
    }
    const part = shares === 1 ? own : Math.floor(own / shares);
    const share = isRemainder ? own - part * (shares - 1) : part;
    const value = share - (said[at] ?? 0);
    net[at] = value;
    if (value < best) best = value;
  }
  const values = new Uint16Array(slack.length);
  let most = 0;
  for (let at = 0; at < net.length; at += 1) {
    const value = net[at] ?? ruledOut;
    if (value >= ruledOut) {
      values[at] = 2 ** 16 - 1;
      continue;
    }
    // Giving less than one might is always allowed: the bound is only weaker for it.
    const held = Math.min(value - best, never - 1);
    values[at] = held;
    if (held > most) most = held;
  }
  return { values, base: best - heard.base, most };
}

type Carried = {
  readonly field: Field;
  readonly edge: Edge;
  readonly way: Way;
  readonly minPlus: MinPlus;
  readonly given: Uint16Array;
  readonly out: Uint16Array;
};

/** What is given at one end, as it arrives at the other: the least over the states left behind. */
function carry({ field, edge, way, minPlus, given, out }: Carried): void {
  const ends = way === "there" ? [edge.low, edge.high] : [edge.high, edge.low];
  const [from, to] = ends.map((place) => field.spots[place ?? 0]);
  if (from === undefined || to === undefined) return;
  const [n, m] = [from.upper.length, from.lower.length];
  const [rows, columns] = [to.upper.length, to.lower.length];
  const [upperOn, upperIn] = facing(edge.upper, way);
  const [lowerOn] = facing(edge.lower, way);
  if (m === 1) {
    // A single column is a row as it stands, which is what vectors like.
    const half = new Uint16Array(rows);
    minPlus.product(given, upperOn, half, { rows: 1, inner: n, columns: rows });
    minPlus.product(half, lowerOn, out, { rows, inner: 1, columns });
  } else if (rows * n * m + rows * m * columns <= n * m * columns + rows * n * columns) {
    const half = new Uint16Array(rows * m);
    minPlus.product(upperIn, given, half, { rows, inner: n, columns: m });
    minPlus.product(half, lowerOn, out, { rows, inner: m, columns });
  } else {
    const half = new Uint16Array(n * columns);
    minPlus.product(given, lowerOn, half, { rows: n, inner: m, columns });
    minPlus.product(upperIn, half, out, { rows, inner: n, columns });
  }
}

/** A lane's costs by rows of the place left, and by rows of the place entered. */
function facing({ there, back }: Edge["upper"], way: Way): readonly [Uint16Array, Uint16Array] {
  return way === "there" ? [there, back] : [back, there];
}
