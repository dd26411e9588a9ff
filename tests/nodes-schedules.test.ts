/**
 * Random schedules of four pages over two nodes that share a store: what one node stores the other
 * takes in, whatever comes between, and a follower that does it wrongly is caught.
 */
import { describe, expect, test } from "vitest";
import { type NodeVariant, wrongFollowers } from "./soak/node-life.ts";
import { scheduleStore } from "./soak/schedule.ts";
import { runNodes } from "./soak/two-nodes.ts";

const schedules = 1_000;
const blocks = 10;

async function resultsOf(first: number, count: number, variant?: NodeVariant) {
  const store = scheduleStore();
  const sum = { faults: [] as string[], deaths: 0, moves: 0 };
  for (let seed = first; seed < first + count; seed += 1) {
    const { faults, deaths, moves } = await runNodes(store, seed, variant);
    sum.faults.push(...faults.map((fault) => `seed ${seed}: ${fault}`));
    sum.deaths += deaths;
    sum.moves += moves;
  }
  await store.close();
  return sum;
}

describe(`${schedules} seeded schedules of two nodes`, () => {
  const each = schedules / blocks;
  test.each(Array.from({ length: blocks }, (_, i) => i * each))("from %i", async (first) => {
    const { faults, deaths, moves } = await resultsOf(first, each);
    expect(faults).toEqual([]);
    expect(deaths).toBeGreaterThan(each / 10);
    expect(moves).toBeGreaterThan(each);
  });
});

test.each(wrongFollowers)("a follower that %s is caught", async (variant) => {
  expect((await resultsOf(0, 60, variant)).faults).not.toEqual([]);
});
