/** The walk over an update's parts in the order in which a document would take them in. */
import type { DecodedUpdate, Struct } from "./decoded-update.ts";

type Known = { clockOf(client: number): number };

/**
 * Whether every part can take its place after what is known: nothing it follows, refers to or
 * deletes is missing or circular. `onPlaced` hears each struct that brings something, in order.
 */
export function placesAll(
  parts: DecodedUpdate,
  known: Known,
  onPlaced: (struct: Struct) => void,
): boolean {
  if (parts.structs.size === 1) return placesOne(parts, known, onPlaced);
  const { isAll, clockOf } = placeMost(parts.structs, known, onPlaced);
  return isAll && parts.deletions.every(({ client, range }) => range.end <= clockOf(client));
}

/**
 * Places what can be: whether that is all, and how far each client got. A client ends before the
 * first thing of its own that can't.
 */
export function placeMost(
  structs: DecodedUpdate["structs"],
  known: Known,
  onPlaced: (struct: Struct) => void,
): Known & { readonly isAll: boolean } {
  const placed = new Map<number, number>();
  const clockOf = (client: number) => placed.get(client) ?? known.clockOf(client);
  const here = { clockOf };
  const next = new Map<number, number>();
  const stuck = new Set<number>();
  const structAt = (client: number) =>
    stuck.has(client) ? undefined : structs.get(client)?.[next.get(client) ?? 0];

  for (const root of structs.keys()) {
    const path = [root]; // each waits for the one after it
    const waiting = new Set(path);
    while (path.length > 0) {
      const client = path.at(-1) ?? root;
      const struct = structAt(client);
      const missing = struct && firstMissing(struct, here);
      if (struct === undefined || struct.start > clockOf(client)) {
        if (struct !== undefined) stuck.add(client);
        waiting.delete(client);
        path.pop();
      } else if (missing === undefined) {
        if (struct.end > clockOf(client)) onPlaced(struct);
        placed.set(client, Math.max(struct.end, clockOf(client)));
        next.set(client, (next.get(client) ?? 0) + 1);
        // Whoever waits goes on as soon as it can: what comes next here may need it in turn.
        if (path.length > 1) {
          waiting.delete(client);
          path.pop();
        }
      } else if (waiting.has(missing) || structAt(missing) === undefined) {
        stuck.add(client); // circular, or nowhere to be found
      } else {
        waiting.add(missing);
        path.push(missing);
      }
    }
  }
  return { clockOf, isAll: stuck.size === 0 };
}

/** The same where there is one client, as in every edit: nothing in it can wait for another. */
function placesOne(
  { structs, deletions }: DecodedUpdate,
  known: Known,
  onPlaced: (struct: Struct) => void,
): boolean {
  const [[author, own] = [0, []]] = structs;
  const reached = new Reached(known, author);
  for (const struct of own) {
    if (struct.start > reached.clock || firstMissing(struct, reached) !== undefined) return false;
    if (struct.end <= reached.clock) continue;
    onPlaced(struct);
    reached.clock = struct.end;
  }
  return deletions.every(({ client, range }) => range.end <= reached.clockOf(client));
}

/** What is known, with one author further on. A class, being made for every edit. */
class Reached {
  clock: number;
  private readonly known: Known;
  private readonly author: number;

  constructor(known: Known, author: number) {
    this.known = known;
    this.author = author;
    this.clock = known.clockOf(author);
  }

  clockOf(client: number): number {
    return client === this.author ? this.clock : this.known.clockOf(client);
  }
}

function firstMissing(struct: Struct, known: Known): number | undefined {
  if (struct.end <= known.clockOf(struct.client)) return undefined; // and so is what it needs
  for (const { client, clock } of struct.needs) if (clock >= known.clockOf(client)) return client;
  return undefined;
}
