/** Which bars of a board stand in none of its sections. */
import type { BarId } from "./board.ts";
import type { ChartState } from "./chart-state.ts";
import { barId, isStoredId } from "./ids.ts";
import { type ChartLayout, idsInOrder } from "./layout.ts";
import { setAsideMax } from "./limits.ts";

/**
 * By id: those in which slots are placed, those in any order, also of a section that was taken out,
 * and those of which a length or nothing but their name is kept.
 */
export function barsApart(
  { barOrder, barLengths }: Pick<ChartLayout, "barOrder" | "barLengths">,
  { placed }: Pick<ChartState, "placed">,
  standing: readonly BarId[],
): readonly BarId[] {
  const known = new Set<string>(placed.keys());
  for (const order of barOrder.values()) {
    for (const id of idsInOrder(order, isStoredId)) known.add(id);
  }
  for (const id of barLengths.keys()) if (isStoredId(id)) known.add(id);
  for (const id of standing) known.delete(id);
  return [...known].sort().slice(0, setAsideMax).map(barId);
}

/** Keeps the name of a bar of which nothing else may say that it was there: no length is said. */
export function noteBar({ barLengths }: Pick<ChartLayout, "barLengths">, bar: string): void {
  if (!barLengths.has(bar)) barLengths.set(bar, null);
}
