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
  const room = roomFor(field);
  for (let step = 0; step <= last; step += 1) {
    const place = way === "there" ? step : last - step;
    if (!visit(field, place, { way, minPlus, room })) return false;
  }
  return true;
}

/** Adds what is said of each pair of states; returns the constant beside it. */
export function hear(message: Message | undefined, out: Int32Array): number {
  if (message === undefined) return 0;
  const { values, base, isHard } = message;
  for (let at = 0; at < out.length; at += 1) {
    const value = values[at] ?? 0;
    out[at] = isHard && value >= never ? ruledOut : (out[at] ?? 0) + value;
  }
  return base;
}

type Going = { readonly way: Way; readonly minPlus: MinPlus; readonly room: Room };
/** Arrays to work in, as long as the largest place asks for. */
type Room = { readonly net: Int32Array; readonly given: Uint16Array; readonly half: Uint16Array };

function roomFor({ spots }: Field): Room {
  const upper = Math.max(0, ...spots.map((spot) => spot.upper.length));
  const lower = Math.max(0, ...spots.map((spot) => spot.lower.length));
  const length = upper * lower;
  return {
    net: new Int32Array(length),
    given: new Uint16Array(length),
    half: new Uint16Array(Math.max(length, upper, lower)),
  };
}

function visit(field: Field, place: number, going: Going): boolean {
  const { way } = going;
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
    const given = give(slack, from, { shares, isRemainder, room: going.room });
    carry(field, edge, to.values, going);
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

function leastOf(costs: Int32Array): number {
  let best = ruledOut;
  for (let at = 0; at < costs.length; at += 1) {
    const cost = costs[at] ?? ruledOut;
    if (cost < best) best = cost;
  }
  return best;
}

type Given = { readonly base: number; readonly most: number };
type Sharing = { readonly shares: number; readonly isRemainder: boolean; readonly room: Room };

/** Writes a place's share for an edge, less what the edge itself said, to the room: given + base. */
function give(slack: Int32Array, heard: Message, { shares, isRemainder, room }: Sharing): Given {
  const { net, given } = room;
  const said = heard.values;
  let best = ruledOut;
  for (let at = 0; at < slack.length; at += 1) {
    const own = slack[at] ?? ruledOut;
    const part = shares === 1 ? own : Math.floor(own / shares);
    const share = isRemainder ? own - part * (shares - 1) : part;
    const value = own >= ruledOut ? ruledOut : share - (said[at] ?? 0);
    net[at] = value;
    if (value < best) best = value;
  }
  let most = 0;
  for (let at = 0; at < slack.length; at += 1) {
    const value = (net[at] ?? ruledOut) - best;
    // Giving less than one might is always allowed: the bound is only weaker for it.
    const held = value < never ? value : never - 1;
    const isOut = (slack[at] ?? ruledOut) >= ruledOut;
    given[at] = isOut ? 2 ** 16 - 1 : held;
    if (held > most && !isOut) most = held;
  }
  return { base: best - heard.base, most };
}

/** What was given at one end, as it arrives at the other: the least over the states left behind. */
function carry(field: Field, edge: Edge, out: Uint16Array, { way, minPlus, room }: Going): void {
  const from = field.spots[way === "there" ? edge.low : edge.high];
  const to = field.spots[way === "there" ? edge.high : edge.low];
  if (from === undefined || to === undefined) return;
  const { given, half } = room;
  const [n, m] = [from.upper.length, from.lower.length];
  const [rows, columns] = [to.upper.length, to.lower.length];
  const [upperOn, upperIn] = facing(edge.upper, way);
  const [lowerOn] = facing(edge.lower, way);
  if (m === 1) {
    // A single column is a row as it stands, which is what vectors like.
    minPlus.product(given, upperOn, half, { rows: 1, inner: n, columns: rows });
    minPlus.product(half, lowerOn, out, { rows, inner: 1, columns });
  } else if (rows * n * m + rows * m * columns <= n * m * columns + rows * n * columns) {
    minPlus.product(upperIn, given, half, { rows, inner: n, columns: m });
    minPlus.product(half, lowerOn, out, { rows, inner: m, columns });
  } else {
    minPlus.product(given, lowerOn, half, { rows: n, inner: m, columns });
    minPlus.product(upperIn, half, out, { rows, inner: n, columns });
  }
}

/** A lane's costs by rows of the place left, and by rows of the place entered. */
function facing({ there, back }: Edge["upper"], way: Way): readonly [Uint16Array, Uint16Array] {
  return way === "there" ? [there, back] : [back, there];
}
