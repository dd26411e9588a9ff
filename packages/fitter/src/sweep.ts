/**
 * One sweep of sequential tree-reweighted message passing (Kolmogorov, PAMI 28, 2006) through the
 * places, in chart order or against it, in whole steps.
 */
import { boundOf, type Edge, type Field, type Message } from "./field.ts";
import { never } from "./lattice.ts";
import { type MinPlus, ruledOut, type Said } from "./min-plus.ts";

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

/** What a message adds to costs. */
export function saidBy({ values, isHard }: Message): Said {
  return { values, outFrom: isHard ? never : 2 ** 16 };
}

type Going = { readonly way: Way; readonly minPlus: MinPlus; readonly room: Room };
/** Arrays to work in, as long as the largest place asks for. */
type Room = { readonly share: Int32Array; readonly given: Uint16Array; readonly half: Uint16Array };

function roomFor({ spots }: Field): Room {
  const upper = Math.max(0, ...spots.map((spot) => spot.upper.length));
  const lower = Math.max(0, ...spots.map((spot) => spot.lower.length));
  const length = upper * lower;
  return {
    share: new Int32Array(length),
    given: new Uint16Array(length),
    half: new Uint16Array(Math.max(length, upper, lower)),
  };
}

function visit(field: Field, place: number, going: Going): boolean {
  const { way } = going;
  const spot = field.spots[place];
  const slack = field.slacks[place];
  if (spot === undefined || slack === undefined) return false;
  const messages = [
    ...spot.before.flatMap((index) => field.toHigh[index] ?? []),
    ...spot.after.flatMap((index) => field.toLow[index] ?? []),
  ];
  const best = going.minPlus.gather(spot.costs, messages.map(saidBy), slack);
  if (best >= ruledOut) return false;
  field.rests[place] = messages.reduce((sum, { base }) => sum + base, best);
  field.floors[place] = boundOf(field) - best;
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
    const share = shares === 1 ? slack : shareOf(slack, best, shares, isRemainder, going.room);
    const { least, most } = going.minPlus.give(share, from.values, going.room.given);
    carry(field, edge, to.values, going);
    to.base = least - from.base - (shares === 1 ? best : 0);
    to.isHard = edge.upper.most + edge.lower.most + most < never;
  }
  return true;
}

/** A part of what is above the best, in whole steps; the last one takes what they leave over. */
function shareOf(
  costs: Int32Array,
  best: number,
  shares: number,
  isRemainder: boolean,
  { share }: Room,
): Int32Array {
  const out = share.subarray(0, costs.length);
  for (let at = 0; at < costs.length; at += 1) {
    const cost = costs[at] ?? 0;
    const own = cost - best;
    const part = Math.floor(own / shares);
    const given = isRemainder ? own - part * (shares - 1) : part;
    out[at] = cost >= ruledOut ? ruledOut : given;
  }
  return out;
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
