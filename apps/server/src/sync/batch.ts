/** Which of the rows that wait go into one transaction. */
import type { DocumentKey, NewRow } from "../store/log-port.ts";

/** One text for one document. */
export function nameOf({ board, document }: DocumentKey): string {
  return `${board}/${document}`;
}

/**
 * The rows that may be stored together, and those that wait. A row that binds a client id may be
 * refused as foreign, alone: so behind it come only rows of its document that bind the same id and
 * would be refused with it. Whatever else may build on it waits until it is decided, which happens
 * once for each page.
 */
export function batchOf<T extends { readonly row: NewRow }>(
  waiting: readonly T[],
): { readonly batch: readonly T[]; readonly later: T[] } {
  const undecided = new Map<string, Set<number>>();
  const closed = new Set<string>();
  const batch: T[] = [];
  const later: T[] = [];
  for (const one of waiting) {
    if (one.row.bindings.length === 0 && undecided.size === 0) {
      batch.push(one);
      continue;
    }
    const name = nameOf(one.row.key);
    const before = undecided.get(name);
    const clients = new Set(one.row.bindings.map(({ client }) => client));
    const falls = before === undefined || [...before].every((client) => clients.has(client));
    if (closed.has(name) || !falls) {
      closed.add(name);
      later.push(one);
      continue;
    }
    batch.push(one);
    if (clients.size > 0) undecided.set(name, clients);
  }
  return { batch, later };
}
