/**
 * SIGKILL in the middle of work, a hundred times: whatever was said to be saved is there after the
 * next start. Two stores at a time, each killed again and again; `npm run soak` does the rest.
 */
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { hastyEntry, runKills } from "../soak/kills.ts";
import { type BuiltEntry, buildEntry } from "../support/built-server.ts";
import { serverEntry } from "../support/server.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 600_000, hookTimeout: 180_000, maxConcurrency: 2 });

const kills = 100;
const seeds = [11, 12, 13, 14];

let built: BuiltEntry;
let hasty: BuiltEntry;

beforeAll(async () => {
  [built, hasty] = await Promise.all([buildEntry(serverEntry), buildEntry(hastyEntry)]);
});

afterAll(() => {
  built.remove();
  hasty.remove();
});

describe.concurrent(`every edit said to be saved survives ${kills} kills`, () => {
  test.each(seeds)("seed %i", async (seed) => {
    const each = kills / seeds.length;
    const { saved, lost, cutOff, unread } = await runKills(each, seed, built.file);
    expect({ lost, unread }).toEqual({ lost: 0, unread: 0 });
    expect(saved).toBeGreaterThan(each);
    expect(cutOff).toBeGreaterThan(0); // the kills fell in the middle
  });
});

test("a server that says saved before it is loses some, and is caught", async () => {
  expect((await runKills(3, 11, hasty.file)).lost).toBeGreaterThan(0);
});
