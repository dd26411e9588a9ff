/**
 * Moves within stored orders, said in the places that a reader sees, whatever else the order holds.
 */
import type * as Y from "yjs";
import { isStoredId } from "../ids.ts";

/** Puts an id at the place `index` among those that count; beyond the end means last. */
export function insertId(order: Y.Array<unknown>, id: string, index: number): void {
  const seen = new Set<string>();
  for (const [place, other] of order.toArray().entries()) {
    if (!isStoredId(other) || seen.has(other)) continue;
    if (seen.size === index) {
      order.insert(place, [id]);
      return;
    }
    seen.add(other);
  }
  order.push([id]);
}

/** Takes an id out of an order, every time it stands there. */
export function removeId(order: Y.Array<unknown>, id: string): void {
  const places = order.toArray().flatMap((other, place) => (other === id ? [place] : []));
  for (const place of places.reverse()) order.delete(place);
}
