/** Findings one after another, in a list that draws each anew only when it comes or goes. */
import { createEffect, createMemo, For, on, Show } from "solid-js";
import { createKeyed } from "../board/keyed.ts";
import { FindingEntry } from "./FindingEntry.tsx";
import type { ReadFinding } from "./reading-order.ts";

/** An entry lives as long as its id: what is typed or open in it stays while the board changes. */
export function FindingEntries(props: { readonly read: readonly ReadFinding[] }) {
  let list: HTMLOListElement | undefined;
  let focused: Element | null = null;
  const ids = createMemo(() => {
    focused = document.activeElement;
    return props.read.map(({ finding }) => finding.id);
  });
  createEffect(
    on(ids, () => {
      // An entry that is moved past another loses the focus, though nobody has left it.
      const isLost = focused !== document.activeElement && list?.contains(focused);
      if (isLost && focused instanceof HTMLElement) focused.focus({ preventScroll: true });
      focused = null;
    }),
  );
  const readOf = createKeyed(
    () => new Map(props.read.map((read) => [read.finding.id, read] as const)),
  );
  return (
    <ol ref={list}>
      <For each={ids()}>
        {(id) => (
          <Show when={readOf(id)}>
            {(read) => <FindingEntry finding={read().finding} until={read().until} />}
          </Show>
        )}
      </For>
    </ol>
  );
}
