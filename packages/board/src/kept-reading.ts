/** What was read of a stored value, kept as long as the value: a change stores a new one. */

/**
 * The same reading as `read`, which depends on nothing but its arguments; an object that was read
 * before under the same key gives the same answer again.
 */
export function keptReading<T>(
  read: (key: string, value: unknown) => T,
): (key: string, value: unknown) => T {
  const kept = new WeakMap<object, { readonly key: string; readonly answer: T }>();
  return (key, value) => {
    if (typeof value !== "object" || value === null) return read(key, value);
    const known = kept.get(value);
    if (known?.key === key) return known.answer;
    const answer = read(key, value);
    kept.set(value, { key, answer });
    return answer;
  };
}
