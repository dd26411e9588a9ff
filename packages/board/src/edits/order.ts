/** Moves within stored orders, said by what a reader sees, whatever else the order holds. */
import type * as Y from "yjs";

/**
 * Puts an id at the place `index` among those that are `seen` in the order; beyond the end means
 * last.
 */
export function insertId(
  order: Y.Array<unknown>,
  id: string,
  { seen, index }: { readonly seen: readonly string[]; readonly index: number },
): void {
  const next = seen.filter((other) => other !== id)[index];
  const place = next === undefined ? -1 : order.toArray().indexOf(next);
  if (place < 0) order.push([id]);
  else order.insert(place, [id]);
}

/** Takes an id out of an order, every time it stands there. */
export function removeId(order: Y.Array<unknown>, id: string): void {
  const places = order.toArray().flatMap((other, place) => (other === id ? [place] : []));
  for (const place of places.reverse()) order.delete(place);
}
