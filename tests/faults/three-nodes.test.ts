/**
 * Faults of every kind one after the other under working pages: the checker finds nothing, and all
 * are equal in the end. `npm run soak -- faults` goes on for as long as there is time.
 */
import { expect, test, vi } from "vitest";
import { soakParts } from "../soak/parts.ts";
import { kindNames } from "./kinds.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

test("faults drawn by a seed leave nothing lost, doubled or untold", async () => {
  const part = soakParts.find(({ name }) => name === "faults");
  const portion = await part?.run(1, true);
  expect(portion?.faults).toEqual([]);
  expect(portion?.done).toBeGreaterThan(2);
});

test("nodes restarted one after the other under work leave nothing lost", async () => {
  const part = soakParts.find(({ name }) => name === "rolling");
  const portion = await part?.run(1, true);
  expect(portion?.faults).toEqual([]);
  expect(portion?.done).toBe(1);
});

test("there is a kind for each part that may fail", () => {
  for (const part of [/store/, /commit/, /Redis/, /wake-up/, /node/, /page/]) {
    expect(kindNames.some((name) => part.test(name))).toBe(true);
  }
});
