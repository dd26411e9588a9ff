/**
 * Random schedules of four pages with partitions, over the server's own code: nothing diverges and
 * nothing waits for ever. `npm run soak` runs as many as there is time for.
 */
import { describe, expect, test } from "vitest";
import { runSchedule, scheduleStore } from "./soak/schedule.ts";
import { turns, type Variant, variants } from "./soak/server-life.ts";

const schedules = 10_000;
const blocks = 20;

async function faultsOf(first: number, count: number, variant?: Variant) {
  const store = scheduleStore();
  const faults: string[] = [];
  let deaths = 0;
  for (let seed = first; seed < first + count; seed += 1) {
    const result = await runSchedule(store, seed, variant);
    deaths += result.deaths;
    faults.push(...result.faults.map((fault) => `seed ${seed}: ${fault}`));
  }
  await turns(10); // a variant still writes what it said to be written
  await store.close();
  return { faults, deaths };
}

describe(`${schedules} seeded schedules of four pages`, () => {
  const each = schedules / blocks;
  test.each(Array.from({ length: blocks }, (_, i) => i * each))("from %i", async (first) => {
    const { faults, deaths } = await faultsOf(first, each);
    expect(faults).toEqual([]);
    expect(deaths).toBeGreaterThan(each / 10);
  });
});

test.each(variants)("a server that %s is caught", async (variant) => {
  expect((await faultsOf(0, 60, variant)).faults).not.toEqual([]);
});
