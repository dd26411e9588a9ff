/** Too many grips for one slot, made fewer by whole string sets. */
import type { Grip } from "@halflap/theory/grip";
import { stringNumbers } from "@halflap/theory/tuning";
import { stringsIn } from "./wished-grips.ts";

/** What was left out of a slot's grips. */
export type Cut = {
  /** How many grips there are. */
  readonly of: number;
  /** The string sets of those that were kept. */
  readonly sets: readonly string[];
};

/** Where no grip stands yet: the middle of the neck. */
const middle = "4-3-2";

/**
 * At most so many grips: whole string sets, those nearest to the strings played now first; of a
 * set that is too large by itself the first grips. Difficulty decides nothing: the best parts hold
 * hard grips too. `cut` is undefined when all were kept.
 */
export function cutToSets(
  grips: readonly Grip[],
  present: Grip | undefined,
  most: number,
): { readonly grips: readonly Grip[]; readonly cut: Cut | undefined } {
  if (grips.length <= most) return { grips, cut: undefined };
  const near = present === undefined ? middle : stringsIn(present);
  const counts = new Map<string, number>();
  for (const set of grips.map(stringsIn)) counts.set(set, (counts.get(set) ?? 0) + 1);
  const sets = [...counts.keys()].sort(
    (a, b) => apart(a, near) - apart(b, near) || a.length - b.length || (a < b ? -1 : 1),
  );
  const kept = new Set<string>();
  let room = most;
  for (const set of sets) {
    const count = counts.get(set) ?? 0;
    if (count > room && kept.size > 0) continue;
    kept.add(set);
    room -= count;
  }
  const within = grips.filter((grip) => kept.has(stringsIn(grip))).slice(0, most);
  return { grips: within, cut: { of: grips.length, sets: sets.filter((set) => kept.has(set)) } };
}

/** On how many strings two sets differ. */
function apart(one: string, other: string): number {
  return stringNumbers.filter(
    (string) => one.includes(String(string)) !== other.includes(String(string)),
  ).length;
}
