/** Keeps what was made until what it was made from changes. */

/** Whether a board is the next one, or only tried: then all is remembered as if it never came. */
export type Mode = "keep" | "try";

export type Keeper<T> = {
  /**
   * What was made under a key the last time, if it was made `from` the very same things; else what
   * `make` makes now, which may build on what it made then.
   */
  readonly keep: (key: string, from: readonly unknown[], make: (last: T | undefined) => T) => T;
  /** One board is done: what it did not ask for is forgotten, or, if it was tried, all of it. */
  readonly turn: (mode: Mode) => void;
};

type Kept<T> = { readonly from: readonly unknown[]; readonly made: T };

/** A keeper of nothing yet. */
export function makeKeeper<T>(): Keeper<T> {
  let last = new Map<string, Kept<T>>();
  let now = new Map<string, Kept<T>>();
  return {
    keep(key, from, make) {
      const before = last.get(key);
      const isSame = before !== undefined && sameItems(before.from, from);
      const kept = isSame ? before : { from, made: make(before?.made) };
      now.set(key, kept);
      return kept.made;
    },
    turn(mode) {
      if (mode === "keep") last = now;
      now = new Map();
    },
  };
}

/** Whether two lists hold the very same things in the same order. */
export function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 1) if (a[index] !== b[index]) return false;
  return true;
}
