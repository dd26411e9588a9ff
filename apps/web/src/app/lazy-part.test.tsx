/**
 * A part that can't be fetched takes nothing else with it.
 *
 * @vitest-environment jsdom
 */
import { cleanup, render } from "@solidjs/testing-library";
import { createSignal, ErrorBoundary, Show } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import { dismissMissed, isPartMissed, lazyPart } from "./lazy-part.tsx";

afterEach(() => {
  cleanup();
  dismissMissed();
});

/** A board with a part that can be opened; `fetchPart` brings it or fails. */
function boardWith(fetchPart: () => Promise<(props: { name: string }) => unknown>) {
  const Part = lazyPart(async () => {
    const Fetched = await fetchPart();
    return (props: { name: string }) => <p>{`${Fetched(props)}`}</p>;
  });
  const [isOpen, setOpen] = createSignal(true);
  const { container } = render(() => (
    <ErrorBoundary fallback="all is gone">
      <h1>The board</h1>
      <Show when={isOpen()}>
        <Part name="settings" onClose={() => setOpen(false)} />
      </Show>
    </ErrorBoundary>
  ));
  return { container, isOpen, setOpen };
}

const settled = (check: () => void) => vi.waitFor(check, { interval: 5 });

test("what can't be fetched is missed and closed; the rest stays; it can come later", async () => {
  let isThere = false;
  const { container, isOpen, setOpen } = boardWith(async () => {
    if (!isThere) throw new TypeError("no network");
    return ({ name }) => `the ${name}`;
  });
  await settled(() => expect(isPartMissed()).toBe(true));
  expect([container.textContent, isOpen()]).toEqual(["The board", false]);
  dismissMissed();
  setOpen(true);
  await settled(() => expect(isPartMissed()).toBe(true));
  isThere = true;
  dismissMissed();
  setOpen(true);
  await settled(() => expect(container.textContent).toBe("The boardthe settings"));
  expect([isPartMissed(), isOpen()]).toEqual([false, true]);
});

test("a fault of the part itself is not taken for one that is missing", async () => {
  const { container } = boardWith(async () => () => {
    throw new Error("a wedge");
  });
  await settled(() => expect(container.textContent).toBe("all is gone"));
  expect(isPartMissed()).toBe(false);
});
