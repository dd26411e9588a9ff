/** What was worked out and may be asked for again, up to a number of things. */

/** Gives what is kept under a name, or makes it; what was not asked for longest makes room. */
export type Shelf<T> = (name: string, make: () => T) => T;

/** An empty shelf with room for `most` things. */
export function makeShelf<T extends object>(most: number): Shelf<T> {
  const kept = new Map<string, T>();
  return (name, make) => {
    const known = kept.get(name);
    if (known !== undefined) {
      kept.delete(name);
      kept.set(name, known);
      return known;
    }
    const made = make();
    const [oldest] = kept.keys();
    if (kept.size >= most && oldest !== undefined) kept.delete(oldest);
    kept.set(name, made);
    return made;
  };
}
