/** A live map read by key: whoever reads one key is told of changes to that key alone. */
import { type Accessor, createComputed, createSignal, getListener, onCleanup } from "solid-js";

type Entry<V> = {
  readonly read: Accessor<V | undefined>;
  readonly follow: (value: V | undefined) => void;
  readers: number;
};

/**
 * What `source` holds under a key, live. Lives as long as the reactive owner it is made in; an
 * entry is forgotten with its last reader.
 */
export function createKeyed<K, V>(source: Accessor<ReadonlyMap<K, V>>): (key: K) => V | undefined {
  const entries = new Map<K, Entry<V>>();
  let now: ReadonlyMap<K, V> = new Map();
  createComputed(() => {
    now = source();
    for (const [key, entry] of entries) entry.follow(now.get(key));
  });
  return (key) => {
    if (getListener() === null) return now.get(key);
    const entry = entries.get(key) ?? entryOf(now.get(key));
    entries.set(key, entry);
    entry.readers += 1;
    onCleanup(() => {
      entry.readers -= 1;
      if (entry.readers === 0 && entries.get(key) === entry) entries.delete(key);
    });
    return entry.read();
  };
}

function entryOf<V>(first: V | undefined): Entry<V> {
  const [read, write] = createSignal(first);
  return { read, follow: (value) => write(() => value), readers: 0 };
}
