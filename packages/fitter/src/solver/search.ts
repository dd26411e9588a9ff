/**
 * The cheapest choice of a field, by sweeps, and where they leave a doubt, by looking into parts of
 * it, the most promising first.
 */
import { doubtOf } from "./doubt.ts";
import { boundOf, type Field } from "./field.ts";
import { type Held, heldBy } from "./held.ts";
import type { MinPlus } from "./min-plus.ts";
import { narrowed, partOf, windowOf } from "./narrow.ts";
import { sweep, type Way } from "./sweep.ts";

export type SearchOptions = {
  readonly minPlus: MinPlus;
  /** Rounds, each one sweep there and one back, after which the best so far must do. */
  readonly roundsMax: number;
  /** A choice that is known already: only cheaper ones are looked for. */
  readonly known?: Held | undefined;
  /**
   * What nothing costs less than, of a field that was settled before it was cut: no more rounds.
   */
  readonly settledAt?: number;
};

export type Found = {
  /** Undefined where nothing fits, or nothing was found. */
  readonly best: Held | undefined;
  /** No choice costs less; Infinity when none fits. */
  readonly bound: number;
  readonly rounds: number;
};

/**
 * The cheapest choice; ties go to what was found first. Rules pairs out of the field in place.
 *
 * Bounds come near the cheapest cost long before a choice does. So where rounds alone don't settle
 * it, only what could cost a little more than the bound is looked through: what is found there is
 * the cheapest of all, and where nothing is, the bound was too low by that little.
 */
export function search(field: Field, options: SearchOptions): Found {
  const { minPlus, roundsMax, known, settledAt } = options;
  const state: State = { minPlus, roundsMax, best: known, rounds: 0, limit: Infinity };
  if (boundOf(field) >= ceilingOf(state)) return ended(state, []);
  const left = settledAt === undefined ? approached(field, state) : field;
  if (left === undefined) return ended(state, []);
  const bound = settledAt ?? boundOf(left);
  const gap = ceilingOf(state) - bound;
  for (let room = Math.max(1, Math.ceil(gap / roomsWorth)); ; room *= roomGrowth) {
    const best = state.best?.cost ?? Infinity;
    state.limit = best === Infinity ? best : Math.min(best, bound + room);
    const part = windowOf(left, state.limit);
    const open = part === undefined ? [] : lookedThrough({ field: part, bound }, state);
    const found = state.best?.cost ?? Infinity;
    // Nothing cheaper than the limit was left out: what is below it is the cheapest of all.
    if (open.length > 0 || found <= state.limit) return ended(state, open);
  }
}

/** The first look goes so small a part of the way to the best choice known, the next so much on. */
const roomsWorth = 32;
const roomGrowth = 4;

/** Looks through a part; what is left open when the rounds are used up. */
function lookedThrough(part: Open, state: State): readonly Open[] {
  const open: Open[] = [part];
  while (open.length > 0) {
    const next = takeLowest(open);
    if (next.bound >= ceilingOf(state)) break;
    if (state.rounds >= state.roundsMax) return [next, ...open];
    const left = approached(next.field, state);
    if (left !== undefined) open.push(...halves(left, boundOf(left)));
  }
  return [];
}

export type HalfRound = {
  readonly minPlus: MinPlus;
  /** Only cheaper choices than this are asked for. */
  readonly best: Held | undefined;
  readonly take: (held: Held) => void;
};

/**
 * Half a round: a sweep and the choice read off it the other way, which is the cheapest of all
 * where places hang together as a tree. False where nothing fits.
 */
export function halfRound(field: Field, way: Way, { minPlus, best, take }: HalfRound): boolean {
  if (!sweep(field, way, minPlus)) return false;
  const other = way === "there" ? "back" : "there";
  const bound = boundOf(field);
  const held =
    best === undefined
      ? (heldBy(field, other, { below: bound + Math.max(1, bound * firstLook) }) ??
        heldBy(field, other))
      : heldBy(field, other, { below: best.cost });
  if (held !== undefined) take(held);
  return true;
}

/** Before any choice is known, this share above the bound is looked at first. */
const firstLook = 1 / 64;

type Open = { readonly field: Field; readonly bound: number };
type State = {
  readonly minPlus: MinPlus;
  readonly roundsMax: number;
  best: Held | undefined;
  rounds: number;
  /** Only choices cheaper than this are looked for. */
  limit: number;
};

function ceilingOf({ best, limit }: State): number {
  return Math.min(best?.cost ?? Infinity, limit);
}

function ended(state: State, open: readonly Open[]): Found {
  const ceiling = ceilingOf(state);
  const bound = open.reduce((least, part) => Math.min(least, part.bound), ceiling);
  return { best: state.best, bound, rounds: state.rounds };
}

function takeLowest(open: Open[]): Open {
  let at = 0;
  for (const [index, part] of open.entries()) {
    if (part.bound < (open[at]?.bound ?? 0)) at = index;
  }
  const [part] = open.splice(at, 1);
  if (part === undefined) throw new Error("nothing left to take");
  return part;
}

/** Rounds over a field until they gain little: what is left of it; undefined when it is settled. */
function approached(start: Field, state: State): Field | undefined {
  let field = start;
  let before = boundOf(field);
  while (state.rounds < state.roundsMax) {
    state.rounds += 1;
    if (isSettledBy(field, "there", state) || isSettledBy(field, "back", state)) return undefined;
    const bound = boundOf(field);
    const next = narrowed(field, ceilingOf(state));
    if (next === undefined) return undefined;
    const isShrinking = next !== field;
    const isRising = bound - before >= (ceilingOf(state) - bound) / roundsWorth;
    field = next;
    if (!isShrinking && !isRising) break;
    before = bound;
  }
  return field;
}

/** Whether half a round shows that there is nothing better than the best so far. */
function isSettledBy(field: Field, way: Way, state: State): boolean {
  const { minPlus, best } = state;
  const take = (held: Held) => {
    if (held.cost < (state.best?.cost ?? Infinity)) state.best = held;
  };
  const fits = halfRound(field, way, { minPlus, best, take });
  return !fits || boundOf(field) >= ceilingOf(state);
}

/** A round after which so many like it would close the gap is followed by another. */
const roundsWorth = 12;

/** The field cut in two at the lane and place where most is undecided; none where nothing is. */
function halves(field: Field, bound: number): readonly Open[] {
  const doubt = doubtOf(field);
  if (doubt === undefined) return [];
  const { place, lane, states } = doubt;
  const middle = Math.ceil(states.length / 2);
  return [states.slice(0, middle), states.slice(middle)].map((half) => ({
    field: partOf(field, { place, [lane]: [...half].sort((a, b) => a - b) }),
    bound,
  }));
}
