/** Things told apart by a number: many grips are alike to whoever asks. */

/** One of each kind, the first, and by thing which kind it is. */
export type Kinds<T> = { readonly first: readonly T[]; readonly kinds: Uint16Array };

/** Things by kind: those with equal numbers are alike. */
export function kindsOf<T>(things: readonly T[], number: (thing: T) => number): Kinds<T> {
  const first: T[] = [];
  const known = new Map<number, number>();
  const kinds = new Uint16Array(things.length);
  for (let index = 0; index < things.length; index++) {
    const thing = things[index];
    if (thing === undefined) continue;
    const name = number(thing);
    const kind = known.get(name) ?? first.push(thing) - 1;
    known.set(name, kind);
    kinds[index] = kind;
  }
  return { first, kinds };
}
