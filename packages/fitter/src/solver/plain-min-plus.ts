/** The sums in plain typed arrays: where there are no vectors, and what those must equal. */
import { never } from "./lattice.ts";
import { carry, type Given, halfLength, type MinPlus, ruledOut, type Said } from "./min-plus.ts";

/** Needs nothing; some fifty times slower than the module of kernel/. */
export const plainMinPlus: MinPlus = {
  name: "plain",
  gather(costs, said, out) {
    out.set(costs);
    let least = said.length === 0 ? leastOf(costs) : ruledOut;
    for (const each of said) least = hear(each, out);
    return least;
  },
  tell(costs, said, crossed, out) {
    const given = new Uint16Array(costs.length);
    const told = give(costs, said, given);
    carry(product, crossed, { given, half: new Uint16Array(halfLength(crossed)), out });
    return told;
  },
};

/** Sums above this are held there, as vectors of 16 bits do. */
const sumMax = 65_535;

/**
 * out[i][j] = the least over k of left[i][k] + right[k][j], sums above 65,535 held there. Rows of
 * `inner` and `columns` numbers without gaps.
 */
export function product(
  left: Uint16Array,
  right: Uint16Array,
  out: Uint16Array,
  rows: number,
  inner: number,
  columns: number,
): void {
  for (let row = 0; row < rows; row += 1) {
    const start = row * columns;
    out.fill(sumMax, start, start + columns);
    for (let k = 0; k < inner; k += 1) {
      const add = left[row * inner + k] ?? 0;
      const from = k * columns;
      for (let column = 0; column < columns; column += 1) {
        const sum = add + (right[from + column] ?? 0);
        if (sum < (out[start + column] ?? 0)) out[start + column] = sum;
      }
    }
  }
}

function leastOf(costs: Int32Array): number {
  let least = ruledOut;
  for (let at = 0; at < costs.length; at += 1) least = Math.min(least, costs[at] ?? ruledOut);
  return least;
}

function hear({ values, outFrom }: Said, costs: Int32Array): number {
  let least = ruledOut;
  for (let at = 0; at < costs.length; at += 1) {
    const value = values[at] ?? 0;
    const cost = value >= outFrom ? ruledOut : (costs[at] ?? 0) + value;
    costs[at] = cost;
    if (cost < least) least = cost;
  }
  return least;
}

function give(costs: Int32Array, said: Uint16Array, given: Uint16Array): Given {
  let least = ruledOut;
  for (let at = 0; at < costs.length; at += 1) {
    const cost = costs[at] ?? 0;
    const net = cost - (said[at] ?? 0);
    if (cost < outFrom && net < least) least = net;
  }
  let most = 0;
  for (let at = 0; at < costs.length; at += 1) {
    const cost = costs[at] ?? 0;
    // Giving less than one might is always allowed: a bound is only weaker for it.
    const held = Math.min(cost - (said[at] ?? 0) - least, never - 1);
    given[at] = cost >= outFrom ? sumMax : held;
    if (cost < outFrom && held > most) most = held;
  }
  return { least, most };
}

/** No sum of real costs comes near this; what is ruled out stays above it. */
const outFrom = ruledOut / 2;
