/**
 * SIGKILL in the middle of work: whatever was said to be saved is there after the next start, kill
 * after kill. 20 kills here, since each costs the start of a server; `npm run soak` does the rest.
 */
import { expect, test, vi } from "vitest";
import { hastyEntry, runKills } from "../soak/kills.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

const killsEach = 5;

test.each([11, 12, 13, 14])(
  "every edit said to be saved survives five kills, seed %i",
  async (seed) => {
    const { saved, lost, cutOff, unread } = await runKills(killsEach, seed);
    expect({ lost, unread }).toEqual({ lost: 0, unread: 0 });
    expect(saved).toBeGreaterThan(killsEach);
    expect(cutOff).toBeGreaterThan(0); // the kills fell in the middle
  },
);

test("a server that says saved before it is loses some, and is caught", async () => {
  expect((await runKills(2, 11, hastyEntry)).lost).toBeGreaterThan(0);
});
