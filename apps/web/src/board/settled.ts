/** A live value whose readers are disturbed only when it is another one. */
import { type Accessor, createComputed, createSignal, untrack } from "solid-js";

/**
 * What `source` says. A memo says the same, but each time something behind it changes it makes all
 * its readers ask whether they are touched; where thousands read, that alone is felt.
 */
export function createSettled<T>(source: Accessor<T>): Accessor<T> {
  const [value, setValue] = createSignal(untrack(source));
  createComputed(() => {
    const now = source();
    setValue(() => now);
  });
  return value;
}
