/**
 * A long list comes a few entries with each frame.
 *
 * @vitest-environment jsdom
 */
import { createRoot, createSignal } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createGrowing } from "./after-paint.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function open(goal: number) {
  const [whole, setWhole] = createSignal({});
  const [wanted, setWanted] = createSignal(goal);
  return createRoot((close) => ({
    close,
    setWhole,
    setWanted,
    drawn: createGrowing(whole, wanted),
  }));
}

function frames(count: number): void {
  for (let each = 0; each < count; each += 1) {
    vi.advanceTimersToNextFrame();
    vi.advanceTimersByTime(1);
  }
}

test("a few more with each frame, up to what is wanted", () => {
  const { drawn, setWanted, close } = open(8);
  const seen = [0, 1, 2, 3].map((count) => {
    frames(Math.min(count, 1));
    return drawn();
  });
  expect(seen).toEqual([3, 6, 8, 8]);
  setWanted(11);
  expect(drawn()).toBe(9);
  frames(1);
  expect(drawn()).toBe(11);
  close();
});

test("another list begins with a few again", () => {
  const { drawn, setWhole, close } = open(12);
  frames(3);
  expect(drawn()).toBe(12);
  setWhole({});
  expect(drawn()).toBe(3);
  frames(3);
  expect(drawn()).toBe(12);
  close();
});

test("nothing is waited for once the list is gone", () => {
  const { close } = open(12);
  close();
  expect(vi.getTimerCount()).toBe(0);
});
