/** What nodes say to each other where all are in one process, which is mostly a single one. */
import { type Crossed, type Crossing, ownTime } from "./crossing-port.ts";
import type { Heard, Wakes } from "./wake-port.ts";

/** Joins whoever calls what it gives, in one round in which each hears all. */
export function inProcessRound(): () => Wakes & Crossing {
  const listeners = new Set<(heard: Heard) => void>();
  const crossings = new Set<(crossed: Crossed) => void>();
  return () => {
    const own = new Set<(heard: Heard) => void>();
    const ownCrossings = new Set<(crossed: Crossed) => void>();
    return {
      time: () => ({ ...ownTime(), nodes: { withinMs: 0 } }),
      cross: (crossed) =>
        void setImmediate(() => {
          for (const listener of crossings) if (!ownCrossings.has(listener)) listener(crossed);
        }),
      hearCrossed(listener) {
        ownCrossings.add(listener);
        crossings.add(listener);
      },
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
        for (const listener of ownCrossings) crossings.delete(listener);
      },
    };
  };
}
