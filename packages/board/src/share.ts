/** Structural sharing: a new reading that keeps every part of the last one that says the same. */

/**
 * A value that says what `next` says, built from the parts of `last` wherever they say the same;
 * `last` itself when nothing changed. Things in a list are matched by their `id` where they have
 * one, so that a bar put in at the front leaves the slots of all others what they were.
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
  const byId = new Map(last.map((item) => [idOf(item), item]));
  const items = next.map((item, index) => {
    const id = idOf(item);
    return shared(id === undefined ? last[index] : byId.get(id), item);
  });
  const same = items.length === last.length && items.every((item, i) => Object.is(item, last[i]));
  return same ? last : items;
}

function sharedMap(last: ReadonlyMap<unknown, unknown>, next: ReadonlyMap<unknown, unknown>) {
  const entries = [...next].map(([key, value]) => [key, shared(last.get(key), value)] as const);
  const keys = [...last.keys()];
  const same =
    keys.length === entries.length &&
    entries.every(([key, value], i) => key === keys[i] && Object.is(value, last.get(key)));
  return same ? last : new Map(entries);
}

function sharedSet(last: ReadonlySet<unknown>, next: ReadonlySet<unknown>) {
  const items = [...last];
  return items.length === next.size && [...next].every((item, i) => item === items[i])
    ? last
    : next;
}

function sharedFields(last: object, next: object): object {
  const fields = Object.entries(next).map(
    ([name, value]) => [name, shared(Reflect.get(last, name), value)] as const,
  );
  const same =
    Object.keys(last).length === fields.length &&
    fields.every(([name, value]) => Object.is(value, Reflect.get(last, name)));
  return same ? last : Object.fromEntries(fields);
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

function idOf(item: unknown): unknown {
  return isObject(item) ? Reflect.get(item, "id") : undefined;
}
