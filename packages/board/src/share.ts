/** Structural sharing: a new reading that keeps every part of the last one that says the same. */

/**
 * A value that says what `next` says, built from the parts of `last` wherever they say the same;
 * `last` itself when nothing changed. Things in a list are matched by their `id` where they have
 * one, so that a bar put in at the front leaves the slots of all others what they were. A chord is
 * the last one or the next one whole.
 */
export function share<T>(last: unknown, next: T): T {
  return shared(last, next) as T;
}

function shared(last: unknown, next: unknown): unknown {
  if (Object.is(last, next)) return last;
  if (!isObject(last) || !isObject(next)) return next;
  if (Array.isArray(next)) return Array.isArray(last) ? sharedList(last, next) : next;
  if (next instanceof Map) return last instanceof Map ? sharedMap(last, next) : next;
  if (next instanceof Set) return last instanceof Set ? sharedSet(last, next) : next;
  return sharedFields(last, next);
}

function sharedList(last: readonly unknown[], next: readonly unknown[]): readonly unknown[] {
  // Mostly everything stands where it stood: only what moved is looked for by its id.
  let byId: ReadonlyMap<unknown, unknown> | undefined;
  let same = next.length === last.length;
  const items = next.map((item, index) => {
    const id = idOf(item);
    let before = last[index];
    if (id !== undefined && idOf(before) !== id) {
      byId ??= new Map(last.map((each) => [idOf(each), each]));
      before = byId.get(id);
    }
    const kept = shared(before, item);
    same &&= Object.is(kept, last[index]);
    return kept;
  });
  return same ? last : items;
}

function sharedMap(last: ReadonlyMap<unknown, unknown>, next: ReadonlyMap<unknown, unknown>) {
  const keys = last.keys();
  let same = next.size === last.size;
  const entries: [unknown, unknown][] = [];
  for (const [key, value] of next) {
    const before = last.get(key);
    const kept = shared(before, value);
    same &&= keys.next().value === key && Object.is(kept, before);
    entries.push([key, kept]);
  }
  return same ? last : new Map(entries);
}

function sharedSet(last: ReadonlySet<unknown>, next: ReadonlySet<unknown>) {
  const items = [...last];
  return items.length === next.size && [...next].every((item, i) => item === items[i])
    ? last
    : next;
}

function sharedFields(last: object, next: object): object {
  const names = Object.keys(next);
  let same = Object.keys(last).length === names.length;
  const values = names.map((name) => {
    const before = Reflect.get(last, name);
    const kept = shared(before, Reflect.get(next, name));
    same &&= Object.is(kept, before);
    return kept;
  });
  if (same) return last;
  return isChord(next) ? next : Object.fromEntries(names.map((name, i) => [name, values[i]]));
}

/** One value: its lists hold the very tones that it has, which a mixture of two would not. */
function isChord(value: object): boolean {
  return Reflect.get(value, "kind") === "chord";
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

function idOf(item: unknown): unknown {
  return isObject(item) ? Reflect.get(item, "id") : undefined;
}
