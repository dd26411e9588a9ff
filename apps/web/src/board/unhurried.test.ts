/** A live value where it is seen and where it is not: what is shown, and when. */
import { createRoot, createSignal } from "solid-js";
import { expect, test, vi } from "vitest";
import { createUnhurried } from "./unhurried.ts";

function open(isFirstSeen: boolean) {
  const [value, setValue] = createSignal(1);
  const [isSeen, setSeen] = createSignal(isFirstSeen);
  const [shown, close] = createRoot(
    (dispose) => [createUnhurried(value, isSeen), dispose] as const,
  );
  return { shown, setValue, setSeen, close };
}

test("where it is seen it is followed at once", () => {
  const { shown, setValue } = open(true);
  setValue(2);
  expect(shown()).toBe(2);
});

test("where it is not it comes in a later task, as it is then", async () => {
  const { shown, setValue } = open(false);
  setValue(2);
  setValue(3);
  expect(shown()).toBe(1);
  await vi.waitFor(() => expect(shown()).toBe(3));
});

test("what comes to be seen has nothing left to catch up with", () => {
  const { shown, setValue, setSeen } = open(false);
  setValue(2);
  setSeen(true);
  expect(shown()).toBe(2);
});

test("what is gone is not caught up with, and what waits behind it is", async () => {
  const [gone, here] = [open(false), open(false)];
  gone.setValue(2);
  here.setValue(2);
  gone.close();
  await vi.waitFor(() => expect(here.shown()).toBe(2));
  expect(gone.shown()).toBe(1);
});
