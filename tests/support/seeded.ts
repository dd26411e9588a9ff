/** A seeded source of chance: the same seed gives the same run, on every machine. */

export type Chance = {
  /** A whole number from 0 up to, not including, `below`. */
  readonly below: (below: number) => number;
  /** One of a list that is not empty. */
  readonly pick: <T>(list: readonly T[]) => T;
  /** Whether something of this probability happens. */
  readonly happens: (probability: number) => boolean;
};

/** Mulberry32, a 32-bit generator in the public domain (Tommy Ettinger, 2017). */
export function seeded(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (limit: number) => Math.floor(next() * limit);
  return {
    below,
    pick: (list) => {
      const found = list.slice(below(list.length)).slice(0, 1);
      for (const one of found) return one;
      throw new Error("nothing to pick from");
    },
    happens: (probability) => next() < probability,
  };
}
