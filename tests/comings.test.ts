/**
 * Random orders of coming and going while a document is loaded and let go: nobody sits in a room of
 * their own, nobody is let in to an empty one, nothing written is lost.
 */
import { describe, expect, test } from "vitest";
import { type RoomsVariant, runComings, wrongRooms } from "./soak/comings.ts";
import { scheduleStore } from "./soak/schedule.ts";

const schedules = 2_000;
const blocks = 10;

async function resultsOf(first: number, count: number, variant?: RoomsVariant) {
  const store = scheduleStore();
  const sum = { faults: [] as string[], comings: 0, hasty: 0 };
  for (let seed = first; seed < first + count; seed += 1) {
    const { faults, comings, hasty } = await runComings(store, seed, variant);
    sum.faults.push(...faults.map((fault) => `seed ${seed}: ${fault}`));
    sum.comings += comings;
    sum.hasty += hasty;
  }
  await store.close();
  return sum;
}

describe(`${schedules} seeded interleavings of coming and going`, () => {
  const each = schedules / blocks;
  test.each(Array.from({ length: blocks }, (_, i) => i * each))("from %i", async (first) => {
    const { faults, comings, hasty } = await resultsOf(first, each);
    expect(faults).toEqual([]);
    expect(comings).toBeGreaterThan(each * 4);
    expect(hasty).toBeGreaterThan(each / 10);
  });
});

test.each(wrongRooms)("a server that %s is caught", async (variant) => {
  expect((await resultsOf(0, 60, variant)).faults).not.toEqual([]);
});
