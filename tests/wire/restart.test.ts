/** A restart under 200 open pages: all have everything again, and nothing is lost. */
import { expect, test, vi } from "vitest";
import { runRestarts } from "../soak/restarts.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

test("200 pages that edit before and during a restart have everything afterwards", async () => {
  const { pages, lost } = await runRestarts(1);
  expect({ pages, lost }).toEqual({ pages: 200, lost: 0 });
});

test("pages that do not come back with what they did meanwhile are caught", async () => {
  const { lost } = await runRestarts(1, { stayAway: true, patienceMs: 1_000 });
  expect(lost).toBeGreaterThan(0);
});
