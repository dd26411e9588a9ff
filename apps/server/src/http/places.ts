/** Places for what is under way: so many at once for each who asks, and for all together. */

/** Under one key, whoever or whatever it names, at most so many at once. */
export type Bound = readonly [key: string, max: number];

/** One for each kind of work. */
export class Places {
  private readonly taken = new Map<string, number>();

  /**
   * A place under each key; answers how to give them back, which may be done twice. Undefined when
   * one key has none left; then none was taken.
   */
  take(bounds: readonly Bound[]): (() => void) | undefined {
    if (bounds.some(([key, max]) => this.count(key) >= max)) return undefined;
    for (const [key] of bounds) this.taken.set(key, this.count(key) + 1);
    let isHeld = true;
    return () => {
      if (isHeld) for (const [key] of bounds) this.giveBack(key);
      isHeld = false;
    };
  }

  private giveBack(key: string): void {
    const left = this.count(key) - 1;
    if (left > 0) this.taken.set(key, left);
    else this.taken.delete(key);
  }

  private count(key: string): number {
    return this.taken.get(key) ?? 0;
  }
}
