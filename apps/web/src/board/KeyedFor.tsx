/** Things one after another, each drawn anew only when it comes or goes. */
import { type Accessor, createEffect, createMemo, For, type JSX, on, Show } from "solid-js";
import { createKeyed } from "./keyed.ts";

/**
 * What is drawn lives as long as its key: what is typed, open or focused in it stays while the
 * thing changes. No two keys are equal.
 */
export function KeyedFor<T>(props: {
  readonly each: readonly T[];
  readonly keyOf: (thing: T) => string;
  readonly children: (thing: Accessor<T>) => JSX.Element;
}) {
  let focused: Element | null = null;
  const keys = createMemo(() => {
    focused = document.activeElement;
    return props.each.map((thing) => props.keyOf(thing));
  });
  createEffect(
    on(keys, () => {
      // What is moved past another loses the focus, though nobody has left it.
      const isLost = document.activeElement === document.body && focused?.isConnected;
      if (isLost && focused instanceof HTMLElement) focused.focus({ preventScroll: true });
      focused = null;
    }),
  );
  const thingOf = createKeyed(
    () => new Map(props.each.map((thing) => [props.keyOf(thing), thing] as const)),
  );
  return (
    <For each={keys()}>
      {(key) => <Show when={thingOf(key)}>{(thing) => props.children(thing)}</Show>}
    </For>
  );
}
