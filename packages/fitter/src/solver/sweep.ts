/**
 * One sweep of sequential tree-reweighted message passing (Kolmogorov, PAMI 28, 2006) through the
 * places, in chart order or against it, in whole steps.
 */
import { boundOf, type Edge, type Field, type Message, type Spot } from "./field.ts";
import { never } from "./lattice.ts";
import { type Crossed, type MinPlus, ruledOut, type Said, type Sides } from "./min-plus.ts";

/** In chart order, or against it. */
export type Way = "there" | "back";

/**
 * Lets each place in turn take in what its neighbours say, keep its share, and give the rest to the
 * edges ahead. The field's bound never falls. A sweep back leaves the slacks. False when some place
 * has no state left, so that nothing fits.
 */
export function sweep(field: Field, way: Way, minPlus: MinPlus): boolean {
  const last = field.spots.length - 1;
  const room = new Int32Array(Math.max(0, ...field.spots.map(({ costs }) => costs.length)));
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

type Going = {
  readonly way: Way;
  readonly minPlus: MinPlus;
  /** To work in, as long as the largest place asks for. */
  readonly room: Int32Array;
};

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
    const crossed = crossedOver(field, edge, way);
    const { least, most } = going.minPlus.tell(share, from.values, crossed, to.values);
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
  room: Int32Array,
): Int32Array {
  const out = room.subarray(0, costs.length);
  for (let at = 0; at < costs.length; at += 1) {
    const cost = costs[at] ?? 0;
    const own = cost - best;
    const part = Math.floor(own / shares);
    const given = isRemainder ? own - part * (shares - 1) : part;
    out[at] = cost >= ruledOut ? ruledOut : given;
  }
  return out;
}

function crossedOver(field: Field, edge: Edge, way: Way): Crossed<Uint16Array> {
  const [from, to] = way === "there" ? [edge.low, edge.high] : [edge.high, edge.low];
  const [left, entered] = [sidesOf(field.spots[from]), sidesOf(field.spots[to])];
  const [on, back] = way === "there" ? (["there", "back"] as const) : (["back", "there"] as const);
  const upper = edge.upper[left.lower === 1 ? on : back];
  return { from: left, to: entered, upper, lower: edge.lower[on] };
}

function sidesOf(spot: Spot | undefined): Sides {
  return { upper: spot?.upper.length ?? 0, lower: spot?.lower.length ?? 0 };
}
