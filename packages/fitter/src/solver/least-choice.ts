/** Of the choices that cost as little as any the first in order, whatever was said on the way. */
import type { Field } from "./field.ts";
import { type Held, heldBy, type LaneFirst } from "./held.ts";
import { type MinPlus, ruledOut } from "./min-plus.ts";
import { narrowed, partOf } from "./narrow.ts";
import { sweep } from "./sweep.ts";

export type LeastOptions = {
  readonly minPlus: MinPlus;
  /** The lane whose states are compared first, in each place. */
  readonly first: LaneFirst;
};

/**
 * The first of all choices that cost no more than `cost`, which is the least: at the first place
 * where they differ it holds the smallest state. The field holds all such choices, and is used up.
 * Undefined where too many had to be tried.
 */
export function leastChoice(
  field: Field,
  cost: number,
  { minPlus, first }: LeastOptions,
): Held | undefined {
  const isTree = hasNoRings(field);
  let tries = triesMax;
  const look = (start: Field): Held | undefined => {
    tries -= 1;
    if (tries < 0) return undefined;
    const left = settled(start, cost, minPlus, isTree);
    if (left === undefined) return undefined;
    const place = isTree ? undefined : firstUndecided(left);
    if (place === undefined) {
      const held = heldBy(left, "there", { below: cost + 1, first });
      return held?.cost === cost ? held : undefined;
    }
    for (const { upper, lower } of pairsAt(left, place, first)) {
      const found = look(partOf(left, { place, upper: [upper], lower: [lower] }));
      if (found !== undefined) return found;
    }
    return undefined;
  };
  return look(field);
}

/** Ways through a tune that rings in more than one place are few. */
const triesMax = 64;

/** What is left after sweeps that leave nothing more out; one is enough where nothing rings. */
function settled(start: Field, cost: number, minPlus: MinPlus, isTree: boolean): Field | undefined {
  if (isTree) return sweep(start, "back", minPlus) ? start : undefined;
  let field = start;
  for (;;) {
    if (!sweep(field, "there", minPlus) || !sweep(field, "back", minPlus)) return undefined;
    const before = pairCount(field);
    const next = narrowed(field, cost + 1);
    if (next === undefined) return undefined;
    field = next;
    if (pairCount(field) === before) return field;
  }
}

function pairCount({ spots }: Field): number {
  return spots.reduce((sum, { costs }) => {
    for (let at = 0; at < costs.length; at += 1) if ((costs[at] ?? 0) < ruledOut) sum += 1;
    return sum;
  }, 0);
}

function firstUndecided({ spots }: Field): number | undefined {
  const place = spots.findIndex(({ costs }) => costs.filter((cost) => cost < ruledOut).length > 1);
  return place < 0 ? undefined : place;
}

type Pair = { readonly upper: number; readonly lower: number };

function pairsAt({ spots }: Field, place: number, first: LaneFirst): readonly Pair[] {
  const { costs = [], lower = [] } = spots[place] ?? {};
  const pairs: Pair[] = [];
  for (const [at, cost] of costs.entries()) {
    if (cost >= ruledOut) continue;
    pairs.push({ upper: Math.floor(at / lower.length), lower: at % lower.length });
  }
  const second = first === "upper" ? "lower" : "upper";
  return pairs.sort((a, b) => a[first] - b[first] || a[second] - b[second]);
}

/** Whether no way along the edges comes back to where it began. */
export function hasNoRings({ spots, edges }: Field): boolean {
  const roots = [...spots.keys()];
  const rootOf = (place: number): number => {
    const root = roots[place] ?? place;
    return root === place ? place : rootOf(root);
  };
  for (const { low, high } of edges) {
    const [one, other] = [rootOf(low), rootOf(high)];
    if (one === other) return false;
    roots[one] = other;
  }
  return true;
}
