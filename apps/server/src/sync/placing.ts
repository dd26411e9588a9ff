/** The walk over an update's parts in the order in which a document would take them in. */
import type { DecodedUpdate, Struct } from "./decoded-update.ts";

/**
 * Whether every part can take its place after what is known: nothing it follows, refers to or
 * deletes is missing or circular. `onPlaced` hears each struct that brings something, in order.
 */
export function placesAll(
  parts: DecodedUpdate,
  known: { clockOf(client: number): number },
  onPlaced: (struct: Struct) => void,
): boolean {
  const placed = new Map<number, number>();
  const clockOf = (client: number) => placed.get(client) ?? known.clockOf(client);
  const next = new Map<number, number>();
  const structAt = (client: number) => parts.structs.get(client)?.[next.get(client) ?? 0];

  for (const root of parts.structs.keys()) {
    const path = [root]; // each waits for the one after it
    const waiting = new Set(path);
    while (path.length > 0) {
      const client = path.at(-1) ?? root;
      const struct = structAt(client);
      if (struct === undefined) {
        waiting.delete(client);
        path.pop();
        continue;
      }
      if (struct.start > clockOf(client)) return false;
      const missing = firstMissing(struct, clockOf);
      if (missing === undefined) {
        if (struct.end > clockOf(client)) onPlaced(struct);
        placed.set(client, Math.max(struct.end, clockOf(client)));
        next.set(client, (next.get(client) ?? 0) + 1);
      } else if (waiting.has(missing) || structAt(missing) === undefined) {
        return false; // circular, or nowhere to be found
      } else {
        waiting.add(missing);
        path.push(missing);
      }
    }
  }
  return parts.deletions.every(({ client, range }) => range.end <= clockOf(client));
}

function firstMissing(struct: Struct, clockOf: (client: number) => number): number | undefined {
  if (struct.end <= clockOf(struct.client)) return undefined; // known, so its surroundings are too
  return struct.needs.find(({ client, clock }) => clock >= clockOf(client))?.client;
}
