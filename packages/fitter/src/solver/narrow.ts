/** Leaves out of a field what can't be part of a better choice, keeping what was said. */
import { type Crossing, cutOut, type Field, type Message, mostOf, turned } from "./field.ts";
import type { Allowed } from "./limits.ts";
import { ruledOut } from "./min-plus.ts";

/**
 * The field with the pairs ruled out that, by the slacks of the last sweep back, can only be part
 * of choices that cost `ceiling` or more; and without the states that are left in no pair. The
 * field itself where too few would go to be worth a new one; undefined where some place has none
 * left.
 */
export function narrowed(field: Field, ceiling: number): Field | undefined {
  const left = field.spots.map((_, place) => withinAt(field, place, ceiling));
  if (left.some(({ upper }) => upper.length === 0)) return undefined;
  const size = (each: readonly Left[]) =>
    each.reduce((sum, { upper, lower }) => sum + upper.length * lower.length, 0);
  const part = size(left) < size(field.spots) * shrinkWorth ? smaller(field, left) : field;
  for (const place of part.spots.keys()) ruleOut(part, place, ceiling);
  return part;
}

/**
 * A field of its own, the given one left as it is: all pairs that, by the slacks of its last sweep,
 * may be part of a choice that costs less than `ceiling`, so that every such choice lies in it;
 * undefined where some place has none. With `part`, only its states, by their order in the field.
 */
export function windowOf(
  field: Field,
  ceiling: number,
  part?: readonly Allowed[],
): Field | undefined {
  const left = field.spots.map((_, place) => {
    return both(withinAt(field, place, ceiling), part?.[place]);
  });
  if (left.some(({ upper, lower }) => upper.length * lower.length === 0)) return undefined;
  const within = smaller(field, left);
  for (const place of within.spots.keys()) ruleOut(within, place, ceiling);
  return within;
}

/** States, by their order in the field, that are in a part of it too. */
function both({ upper, lower }: Left, part: Allowed | undefined): Left {
  const within = (states: readonly number[], kept: readonly number[] | undefined) =>
    kept === undefined ? states : states.filter((state) => kept.includes(state));
  return { upper: within(upper, part?.upper), lower: within(lower, part?.lower) };
}

/** What a choice with any of the field's pairs costs at least: a window up to it is the whole. */
export function highestIn(field: Field): number {
  return field.spots.reduce((most, { costs }, place) => {
    const slack = field.slacks[place];
    const floor = field.floors[place] ?? 0;
    for (let at = 0; at < costs.length; at += 1) {
      const own = floor + (slack?.[at] ?? 0);
      if (own > most && (costs[at] ?? ruledOut) < ruledOut) most = own;
    }
    return most;
  }, 0);
}

/** Making a smaller field pays when less than this share of the pairs' room is left. */
const shrinkWorth = 0.7;

/** States of a place, by their order in the field; undefined = all of a lane. */
export type Part = Partial<Allowed> & { readonly place: number };

/** A field of its own that holds only these states there; everything, without a part. */
export function partOf(field: Field, part?: Part): Field {
  const left = field.spots.map((spot, place) => {
    const all = { upper: [...spot.upper.keys()], lower: [...spot.lower.keys()] };
    if (part?.place !== place) return all;
    return { upper: part.upper ?? all.upper, lower: part.lower ?? all.lower };
  });
  return smaller(field, left);
}

type Left = { readonly upper: readonly number[]; readonly lower: readonly number[] };

/** The states of a place that are in some pair below the ceiling. */
function withinAt(field: Field, place: number, ceiling: number): Left {
  const { upper = [], lower = [] } = field.spots[place] ?? {};
  const slack = field.slacks[place] ?? noCosts;
  const room = Math.min(ruledOut, ceiling - (field.floors[place] ?? 0));
  const rows = new Uint8Array(upper.length);
  const columns = new Uint8Array(lower.length);
  let at = 0;
  for (let row = 0; row < rows.length; row += 1) {
    let isWithin = 0;
    for (let column = 0; column < columns.length; column += 1) {
      // The sign of the difference, without a branch that would be guessed wrong half the time.
      const below = ((slack[at] ?? 0) - room) >>> 31;
      isWithin |= below;
      columns[column] = (columns[column] ?? 0) | below;
      at += 1;
    }
    rows[row] = isWithin;
  }
  return { upper: set(rows), lower: set(columns) };
}

const noCosts = new Int32Array(0);

function ruleOut(field: Field, place: number, ceiling: number): void {
  const costs = field.spots[place]?.costs ?? noCosts;
  const slack = field.slacks[place] ?? noCosts;
  const room = ceiling - (field.floors[place] ?? 0);
  for (let at = 0; at < costs.length; at += 1) {
    if ((slack[at] ?? 0) >= room) costs[at] = ruledOut;
  }
}

function smaller(field: Field, left: readonly Left[]): Field {
  const keptIn = (place: number) => left[place] ?? { upper: [], lower: [] };
  const spots = field.spots.map((spot, place) => {
    const { upper, lower } = keptIn(place);
    return {
      ...spot,
      upper: upper.map((state) => spot.upper[state] ?? 0),
      lower: lower.map((state) => spot.lower[state] ?? 0),
      costs: pick(spot.costs, spot.lower.length, keptIn(place), Int32Array),
    };
  });
  const edges = field.edges.map((edge) => ({
    ...edge,
    upper: cross(edge.upper, keptIn(edge.low).upper, keptIn(edge.high).upper, {
      width: field.spots[edge.high]?.upper.length ?? 0,
    }),
    lower: cross(edge.lower, keptIn(edge.low).lower, keptIn(edge.high).lower, {
      width: field.spots[edge.high]?.lower.length ?? 0,
    }),
  }));
  const said = (message: Message, place: number): Message => ({
    ...message,
    values: pick(message.values, field.spots[place]?.lower.length ?? 0, keptIn(place), Uint16Array),
  });
  return {
    spots,
    edges,
    toLow: field.toLow.map((message, at) => said(message, field.edges[at]?.low ?? 0)),
    toHigh: field.toHigh.map((message, at) => said(message, field.edges[at]?.high ?? 0)),
    rests: field.rests.slice(),
    slacks: field.slacks.map((slack, place) =>
      pick(slack, field.spots[place]?.lower.length ?? 0, keptIn(place), Int32Array),
    ),
    floors: field.floors.slice(),
  };
}

function cross(
  crossing: Crossing,
  low: readonly number[],
  high: readonly number[],
  { width }: { readonly width: number },
): Crossing {
  const there = cutOut(crossing.there, width, low, high);
  if (there === crossing.there) return crossing;
  return { there, back: turned(there, high.length), most: mostOf(there) };
}

function pick<Numbers extends Int32Array | Uint16Array>(
  numbers: Numbers,
  width: number,
  { upper, lower }: Left,
  Kind: new (length: number) => Numbers,
): Numbers {
  const out = new Kind(upper.length * lower.length);
  let at = 0;
  for (const row of upper) {
    const start = row * width;
    if (lower.length === width) {
      out.set(numbers.subarray(start, start + width), at);
      at += width;
    } else {
      for (const column of lower) out[at++] = numbers[start + column] ?? 0;
    }
  }
  return out;
}

function set(flags: Uint8Array): readonly number[] {
  const found: number[] = [];
  for (const [index, flag] of flags.entries()) if (flag === 1) found.push(index);
  return found;
}
