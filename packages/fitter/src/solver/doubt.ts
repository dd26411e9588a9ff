/** Where a field is least decided, by what was said in it last. */
import type { Field, Spot } from "./field.ts";
import { ruledOut } from "./min-plus.ts";

export type Doubt = {
  readonly place: number;
  readonly lane: "upper" | "lower";
  /** All states of the lane there, by their order in the field, the most promising first. */
  readonly states: readonly number[];
};

/** The least slack of each state of a lane, to be added to the place's floor; Infinity: never. */
export function slackOf(
  { upper, lower, costs }: Spot,
  slack: Int32Array,
  lane: "upper" | "lower",
): readonly number[] {
  const found = new Array<number>((lane === "upper" ? upper : lower).length);
  found.fill(Number.POSITIVE_INFINITY);
  let at = 0;
  for (let row = 0; row < upper.length; row += 1) {
    for (let column = 0; column < lower.length; column += 1) {
      const state = lane === "upper" ? row : column;
      const own = (costs[at] ?? ruledOut) >= ruledOut ? Infinity : (slack[at] ?? Infinity);
      if (own < (found[state] ?? Infinity)) found[state] = own;
      at += 1;
    }
  }
  return found;
}

/**
 * The lane and place whose second best state is nearest to its best; of equal ones where more ways
 * meet, then where there are fewer states, then the first. Undefined where no lane has a choice.
 */
export function doubtOf(field: Field): Doubt | undefined {
  let found: { readonly doubt: Doubt; readonly rank: readonly number[] } | undefined;
  for (const [place, spot] of field.spots.entries()) {
    for (const lane of ["upper", "lower"] as const) {
      if (spot[lane].length < 2) continue;
      const slack = slackOf(spot, field.slacks[place] ?? new Int32Array(0), lane);
      const states = [...slack.keys()].sort((a, b) => (slack[a] ?? 0) - (slack[b] ?? 0) || a - b);
      const ways = spot.before.length + spot.after.length;
      const second = (slack[states[1] ?? 0] ?? 0) - (slack[states[0] ?? 0] ?? 0);
      const rank = [second, -ways, states.length];
      if (found === undefined || isBefore(rank, found.rank)) {
        found = { doubt: { place, lane, states }, rank };
      }
    }
  }
  return found?.doubt;
}

function isBefore(a: readonly number[], b: readonly number[]): boolean {
  for (const [at, value] of a.entries()) {
    if (value !== b[at]) return value < (b[at] ?? 0);
  }
  return false;
}
