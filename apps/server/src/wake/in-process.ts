/** Wake-ups where all nodes are in one process, which is mostly a single one. */
import type { Heard, Wakes } from "./wake-port.ts";

/** Joins whoever calls what it gives, in one round in which each hears all. */
export function inProcessRound(): () => Wakes {
  const listeners = new Set<(heard: Heard) => void>();
  return () => {
    const own = new Set<(heard: Heard) => void>();
    return {
      // Later than whoever wrote the row hears of it: their own word is no news to them.
      say: (word) =>
        void setImmediate(() => {
          for (const listener of listeners) listener(word);
        }),
      hear(listener) {
        own.add(listener);
        listeners.add(listener);
      },
      close: async () => {
        for (const listener of own) listeners.delete(listener);
      },
    };
  };
}
