/** Answers about a thing that never changes, worked out once and kept as long as the thing. */

/** The same function, remembering; it must look at nothing but its argument. */
export function remembered<K extends object, V>(ask: (about: K) => V): (about: K) => V {
  const known = new WeakMap<K, { readonly answer: V }>();
  return (about) => {
    const last = known.get(about);
    if (last !== undefined) return last.answer;
    const answer = ask(about);
    known.set(about, { answer });
    return answer;
  };
}
