/**
 * The cheapest choice of a field, by sweeps, and where they leave a doubt, by looking into parts of
 * it, the most promising first.
 */
import { doubtOf } from "./doubt.ts";
import { boundOf, type Field } from "./field.ts";
import { type Held, heldBy } from "./held.ts";
import type { MinPlus } from "./min-plus.ts";
import { narrowed, partOf } from "./narrow.ts";
import { sweep } from "./sweep.ts";

export type SearchOptions = {
  readonly minPlus: MinPlus;
  /** Rounds, each one sweep there and one back, after which the best so far must do. */
  readonly roundsMax: number;
  /** A choice that is known already: only cheaper ones are looked for. */
  readonly known?: Held | undefined;
};

export type Found = {
  /** Undefined where nothing fits, or nothing was found. */
  readonly best: Held | undefined;
  /** No choice costs less; Infinity when none fits. */
  readonly bound: number;
  readonly rounds: number;
};

/** The cheapest choice; ties go to what was found first. Rules pairs out of the field in place. */
export function search(field: Field, { minPlus, roundsMax, known }: SearchOptions): Found {
  const state: State = { minPlus, roundsMax, best: known, rounds: 0 };
  const open: Open[] = [{ field, bound: boundOf(field) }];
  while (open.length > 0) {
    const part = takeLowest(open);
    if (part.bound >= ceilingOf(state)) break;
    if (state.rounds >= roundsMax) return ended(state, [part, ...open]);
    open.push(...worked(part.field, state));
  }
  return ended(state, []);
}

/**
 * One round: a sweep there and one back, and the choice read off them. False where nothing
 * fits.
 */
export function roundOf(field: Field, minPlus: MinPlus, take: (held: Held) => void): boolean {
  if (!sweep(field, "there", minPlus)) return false;
  if (!sweep(field, "back", minPlus)) return false;
  const held = heldBy(field, "there", minPlus);
  if (held !== undefined) take(held);
  return true;
}

type Open = { readonly field: Field; readonly bound: number };
type State = {
  readonly minPlus: MinPlus;
  readonly roundsMax: number;
  best: Held | undefined;
  rounds: number;
};

function ceilingOf({ best }: State): number {
  return best?.cost ?? Number.POSITIVE_INFINITY;
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

/** Rounds over a part until it is settled (no parts), or they gain little (two parts). */
function worked(start: Field, state: State): readonly Open[] {
  let field = start;
  let before = boundOf(field);
  while (state.rounds < state.roundsMax) {
    state.rounds += 1;
    const fits = roundOf(field, state.minPlus, (held) => {
      if (held.cost < ceilingOf(state)) state.best = held;
    });
    const bound = boundOf(field);
    if (!fits || bound >= ceilingOf(state)) return [];
    const next = narrowed(field, ceilingOf(state));
    if (next === undefined) return [];
    const isShrinking = next !== field;
    const isRising = bound - before >= (ceilingOf(state) - bound) / roundsWorth;
    field = next;
    if (!isShrinking && !isRising) return halves(field, bound);
    before = bound;
  }
  return [{ field, bound: boundOf(field) }];
}

/** A round after which so many like it would close the gap is followed by another. */
const roundsWorth = 6;

/** The field cut in two at the lane and place where most is undecided; none where nothing is. */
function halves(field: Field, bound: number): readonly Open[] {
  const doubt = doubtOf(field);
  if (doubt === undefined) return [];
  const { place, lane, states } = doubt;
  const middle = Math.ceil(states.length / 2);
  return [states.slice(0, middle), states.slice(middle)].map((half) => ({
    field: partOf(field, { place, lane, states: [...half].sort((a, b) => a - b) }),
    bound,
  }));
}
