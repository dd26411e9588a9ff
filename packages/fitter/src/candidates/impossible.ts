/** Wishes that can't hold together: the fewest of them, and the slot that shows it. */
import type { Board } from "@halflap/board/board";
import { type LaneWishes, usualWishes, type WishName, wishNames } from "@halflap/board/wishes";
import type { FitResult } from "../answer.ts";
import { type Candidates, chooserOf, type SlotCandidates } from "./candidates.ts";
import { impossibleWords } from "./impossible-words.ts";

export type Impossible = Extract<FitResult, { readonly kind: "impossible" }>;

/** These let in more or change nothing where a grip may change, so they are never in the way. */
const harmless: ReadonlySet<WishName> = new Set<WishName>(["leaveAsIs", "liked"]);

/**
 * The smallest set of the lane's wishes under which a slot has no grip, and the first slot in
 * chart order that shows it; of several such sets the one that comes first by the wishes' order.
 * undefined when every slot has a grip. SPEC.md W9.
 */
export function impossibleIn(board: Board, candidates: Candidates): Impossible | undefined {
  const { lane, slots } = candidates;
  const { wishes } = board.lanes[lane];
  const empty = [...slots.values()].filter(isEmpty);
  if (empty.length === 0) return undefined;
  const asked = wishNames.filter((name) => !harmless.has(name) && isAsked(wishes, name));
  for (let size = 1; size <= asked.length; size += 1) {
    for (const names of subsets(asked, size)) {
      const only = onlyWishes(wishes, names);
      const choose = chooserOf(board, lane, only);
      const found = empty.find(({ slot, bar }) => isEmpty(choose(slot, bar)));
      if (found === undefined) continue;
      const words = impossibleWords({ board, lane, wishes: only, names, ...found });
      return { kind: "impossible", lane, wishes: names, slot: found.slot.id, words };
    }
  }
  return undefined;
}

/**
 * The usual wishes but for those that are named. A number of strings that is wished moves the
 * usual other end out of its way.
 */
export function onlyWishes(wishes: LaneWishes, names: readonly WishName[]): LaneWishes {
  const named = Object.fromEntries(names.map((name) => [name, wishes[name]]));
  const only: LaneWishes = { ...usualWishes, ...named };
  const { stringsMin, stringsMax } = only;
  if (stringsMin <= stringsMax) return only;
  return names.includes("stringsMin")
    ? { ...only, stringsMax: stringsMin }
    : { ...only, stringsMin: stringsMax };
}

function isEmpty(found: SlotCandidates): found is Extract<SlotCandidates, { kind: "grips" }> {
  return found.kind === "grips" && found.grips.length === 0;
}

function isAsked(wishes: LaneWishes, name: WishName): boolean {
  const [asked, usual] = [wishes[name], usualWishes[name]];
  if (asked instanceof Set) return asked.size > 0;
  return Array.isArray(asked) ? asked.length > 0 : asked !== usual;
}

/** Every choice of so many, in order. */
function* subsets<T>(items: readonly T[], size: number): Generator<readonly T[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (const [index, item] of items.entries()) {
    for (const rest of subsets(items.slice(index + 1), size - 1)) yield [item, ...rest];
  }
}
