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
  if (parts.structs.size === 1) return placesOne(parts, known, onPlaced);
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
        // Whoever waits goes on as soon as it can: what comes next here may need it in turn.
        if (path.length > 1) {
          waiting.delete(client);
          path.pop();
        }
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

/** The same where there is one client, as in every edit: nothing in it can wait for another. */
function placesOne(
  { structs, deletions }: DecodedUpdate,
  known: { clockOf(client: number): number },
  onPlaced: (struct: Struct) => void,
): boolean {
  const [[author, own] = [0, []]] = structs;
  let clock = known.clockOf(author);
  const clockOf = (client: number) => (client === author ? clock : known.clockOf(client));
  for (const struct of own) {
    if (struct.start > clock || firstMissing(struct, clockOf) !== undefined) return false;
    if (struct.end <= clock) continue;
    onPlaced(struct);
    clock = struct.end;
  }
  return deletions.every(({ client, range }) => range.end <= clockOf(client));
}

function firstMissing(struct: Struct, clockOf: (client: number) => number): number | undefined {
  if (struct.end <= clockOf(struct.client)) return undefined; // known, so its surroundings are too
  for (const { client, clock } of struct.needs) if (clock >= clockOf(client)) return client;
  return undefined;
}
