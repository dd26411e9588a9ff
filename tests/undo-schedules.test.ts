/**
 * Random schedules of three pages that edit, undo and redo, go offline and come back: no undo
 * touches what another wrote, and ways to undo that do are caught. `npm run soak` runs more.
 */
import { describe, expect, test } from "vitest";
import type { MakeUndo } from "./soak/undo-page.ts";
import { runUndo } from "./soak/undo-schedule.ts";
import { wrongUndos } from "./soak/wrong-undo.ts";

const schedules = 1_000;
const blocks = 20;

function resultsOf(first: number, count: number, makeUndo?: MakeUndo) {
  const sum = { faults: [] as string[], taken: 0 };
  for (let seed = first; seed < first + count; seed += 1) {
    const { faults, taken } = runUndo(seed, makeUndo);
    sum.faults.push(...faults.map((fault) => `seed ${seed}: ${fault}`));
    sum.taken += taken;
  }
  return sum;
}

describe(`${schedules} seeded schedules of three pages that undo`, () => {
  const each = schedules / blocks;
  test.each(Array.from({ length: blocks }, (_, i) => i * each))("from %i", (first) => {
    const { faults, taken } = resultsOf(first, each);
    expect(faults).toEqual([]);
    expect(taken).toBeGreaterThan(each * 5);
  });
});

test.each(Object.entries(wrongUndos))("an undo that %s is caught", (_what, makeUndo) => {
  expect(resultsOf(0, 40, makeUndo).faults).not.toEqual([]);
});
