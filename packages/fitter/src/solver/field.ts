/**
 * A lattice made ready for passing messages: the states that may be held, neighbours joined once,
 * and what each neighbour has said of the other so far.
 */
import { type Lattice, type Link, never, type Place } from "./lattice.ts";
import type { Allowed, Surcharge } from "./limits.ts";
import { ruledOut } from "./min-plus.ts";

export type Spot = {
  /** The states that may be held, by their numbers in the lattice, rising. */
  readonly upper: readonly number[];
  readonly lower: readonly number[];
  /** Row by row of the upper states. A search may rule out more pairs in place. */
  readonly costs: Int32Array;
  /** Edges to places before and after this one in chart order. */
  readonly before: readonly number[];
  readonly after: readonly number[];
};

/** One lane's costs between two neighbours. */
export type Crossing = {
  /** Row by row of the earlier place's states, and row by row of the later one's. */
  readonly there: Uint16Array;
  readonly back: Uint16Array;
  /** The largest that is no `never`. */
  readonly most: number;
};

export type Edge = {
  readonly low: number;
  readonly high: number;
  readonly upper: Crossing;
  readonly lower: Crossing;
};

/** What an edge says to a place: what its states cost at least beyond it, values + base. */
export type Message = {
  values: Uint16Array;
  base: number;
  /**
   * Whether a value of `never` or more can only mean that nothing fits; else it means "at least".
   */
  isHard: boolean;
};

export type Field = {
  readonly spots: readonly Spot[];
  readonly edges: readonly Edge[];
  /** By edge: to its earlier place, and to its later one. */
  readonly toLow: readonly Message[];
  readonly toHigh: readonly Message[];
  /** By place: the least of what it has not given to an edge. Their sum is a lower bound. */
  readonly rests: Float64Array;
  /**
   * By place, since the last sweep: floor + slack is what a choice with the pair costs at least.
   */
  readonly slacks: readonly Int32Array[];
  readonly floors: Float64Array;
};

export type Limits = {
  readonly surcharge?: readonly Surcharge[] | undefined;
  readonly allowed?: ReadonlyMap<number, Allowed> | undefined;
};

/**
 * The field of a lattice, nothing said yet. A field that is of no more use lends its numbers, which
 * are many, where there are as many.
 */
export function fieldOf(lattice: Lattice, limits: Limits, spent?: Field): Field {
  const states = lattice.places.map((place, index) => statesOf(place, limits.allowed?.get(index)));
  const costs = lattice.places.map((place, index) =>
    pairCosts(place, states[index] ?? nothing, {
      surcharge: limits.surcharge?.[index],
      spent: spent?.spots[index]?.costs,
    }),
  );
  const edges = new Map<string, Edge>();
  let parallel = 0;
  for (const link of lattice.links) {
    const from = states[link.from] ?? nothing;
    const to = states[link.to] ?? nothing;
    const place = lattice.places[link.to];
    if (link.from === link.to) {
      addLoop(costs[link.from] ?? new Int32Array(0), link, from, place);
      continue;
    }
    const edge = edgeOf(link, from, to, place);
    const key = `${edge.low} ${edge.high}`;
    const known = edges.get(key);
    const joined = known === undefined ? edge : together(known, edge);
    parallel += 1;
    if (joined === undefined) edges.set(`${key} ${parallel}`, edge);
    else edges.set(key, joined);
  }
  const list = [...edges.values()];
  const spots = states.map((state, index) => ({
    ...state,
    costs: costs[index] ?? new Int32Array(0),
    before: indexesWhere(list, ({ high }) => high === index),
    after: indexesWhere(list, ({ low }) => low === index),
  }));
  const silence = (place: number, said: Message | undefined): Message => {
    const values = lent(said?.values, spots[place]?.costs.length ?? 0, Uint16Array);
    return { values: values.fill(0), base: 0, isHard: true };
  };
  return {
    spots,
    edges: list,
    toLow: list.map(({ low }, index) => silence(low, spent?.toLow[index])),
    toHigh: list.map(({ high }, index) => silence(high, spent?.toHigh[index])),
    rests: new Float64Array(spots.length),
    slacks: spots.map(({ costs }, index) =>
      lent(spent?.slacks[index], costs.length, Int32Array).fill(0),
    ),
    floors: new Float64Array(spots.length),
  };
}

/** No choice of the field costs less, in steps. */
export function boundOf(field: Field): number {
  return field.rests.reduce((sum, rest) => sum + rest, 0);
}

/** A matrix whose rows are the columns of the given one, which has `columns` of them. */
export function turned(matrix: Uint16Array, columns: number): Uint16Array {
  const rows = columns === 0 ? 0 : matrix.length / columns;
  if (rows === 1 || columns === 1) return matrix;
  const out = new Uint16Array(matrix.length);
  let at = 0;
  for (let row = 0; row < rows; row += 1) {
    for (let to = row; to < out.length; to += rows) out[to] = matrix[at++] ?? 0;
  }
  return out;
}

/** The rows and columns asked for; the matrix itself where that is all of it. */
export function cutOut(
  matrix: Uint16Array,
  width: number,
  rows: readonly number[],
  columns: readonly number[],
): Uint16Array {
  if (rows.length * columns.length === matrix.length) return matrix;
  const out = new Uint16Array(rows.length * columns.length);
  let at = 0;
  for (const row of rows) {
    for (const column of columns) out[at++] = matrix[row * width + column] ?? 0;
  }
  return out;
}

/** The largest of the numbers that is no `never`. */
export function mostOf(numbers: Uint16Array): number {
  let most = 0;
  for (let at = 0; at < numbers.length; at += 1) {
    const number = numbers[at] ?? 0;
    if (number > most && number < never) most = number;
  }
  return most;
}

type States = { readonly upper: readonly number[]; readonly lower: readonly number[] };
const nothing: States = { upper: [], lower: [] };

function statesOf(place: Place, allowed: Allowed | undefined): States {
  return {
    upper: rising(allowed?.upper, place.upper),
    lower: rising(allowed?.lower, place.lower),
  };
}

function rising(asked: readonly number[] | undefined, count: number): readonly number[] {
  if (asked === undefined) return Array.from({ length: count }, (_, state) => state);
  return [...new Set(asked)].filter((state) => state < count).sort((a, b) => a - b);
}

/** Numbers of any kind, so many. */
function lent<Numbers extends Int32Array | Uint16Array>(
  spent: Numbers | undefined,
  length: number,
  Kind: new (length: number) => Numbers,
): Numbers {
  return spent?.length === length ? spent : new Kind(length);
}

function pairCosts(
  place: Place,
  states: States,
  from: { readonly surcharge: Surcharge | undefined; readonly spent: Int32Array | undefined },
): Int32Array {
  const { surcharge } = from;
  const costs = lent(from.spent, states.upper.length * states.lower.length, Int32Array);
  if (surcharge === undefined && costs.length === place.pairs.length) {
    for (let at = 0; at < costs.length; at += 1) {
      const own = place.pairs[at] ?? never;
      costs[at] = own >= never ? ruledOut : own;
    }
    return costs;
  }
  let at = 0;
  for (const upper of states.upper) {
    const more = surcharge?.upper?.[upper] ?? 0;
    for (const lower of states.lower) {
      const own = place.pairs[upper * place.lower + lower] ?? never;
      const other = surcharge?.lower?.[lower] ?? 0;
      const isNever = own >= never || more >= never || other >= never;
      costs[at++] = isNever ? ruledOut : own + more + other;
    }
  }
  return costs;
}

/** A way from a place to itself costs what its states cost, each to itself. */
function addLoop(costs: Int32Array, link: Link, states: States, place: Place | undefined): void {
  const self = (matrix: Uint16Array | undefined, state: number, width = 0) =>
    matrix?.[state * width + state] ?? 0;
  let at = 0;
  for (const upper of states.upper) {
    const more = self(link.upper, upper, place?.upper);
    for (const lower of states.lower) {
      const other = self(link.lower, lower, place?.lower);
      const sum = (costs[at] ?? 0) + more + other;
      costs[at++] = more >= never || other >= never ? ruledOut : Math.min(sum, ruledOut);
    }
  }
}

function edgeOf(link: Link, from: States, to: States, place: Place | undefined): Edge {
  const upper = crossingOf(link.upper, from.upper, to.upper, place?.upper);
  const lower = crossingOf(link.lower, from.lower, to.lower, place?.lower);
  if (link.from < link.to) return { low: link.from, high: link.to, upper, lower };
  return { low: link.to, high: link.from, upper: mirrored(upper), lower: mirrored(lower) };
}

function crossingOf(
  costs: Uint16Array | undefined,
  from: readonly number[],
  to: readonly number[],
  width = 0,
): Crossing {
  if (costs === undefined) {
    const zeros = new Uint16Array(from.length * to.length);
    return { there: zeros, back: zeros, most: 0 };
  }
  const there = cutOut(costs, width, from, to);
  if (there !== costs) return { there, back: turned(there, to.length), most: mostOf(there) };
  const known = wholeCrossings.get(costs);
  if (known !== undefined) return known;
  const whole = { there, back: turned(there, to.length), most: mostOf(there) };
  wholeCrossings.set(costs, whole);
  return whole;
}

/** Tables that serve again from one fit to the next, as long as somebody keeps them. */
const wholeCrossings = new WeakMap<Uint16Array, Crossing>();

function mirrored({ there, back, most }: Crossing): Crossing {
  return { there: back, back: there, most };
}

/** Two edges between the same places as one; undefined where a sum would be taken for `never`. */
function together(a: Edge, b: Edge): Edge | undefined {
  const upper = sumOf(a.upper, b.upper);
  const lower = sumOf(a.lower, b.lower);
  return upper && lower && { ...a, upper, lower };
}

function sumOf(a: Crossing, b: Crossing): Crossing | undefined {
  if (a.most + b.most >= never) return undefined;
  const add = (left: Uint16Array, right: Uint16Array) =>
    left.map((cost, at) => Math.min(cost + (right[at] ?? 0), 2 ** 16 - 1));
  return { there: add(a.there, b.there), back: add(a.back, b.back), most: a.most + b.most };
}

function indexesWhere(edges: readonly Edge[], holds: (edge: Edge) => boolean): readonly number[] {
  return edges.flatMap((edge, index) => (holds(edge) ? [index] : []));
}
