/**
 * The save loop: one transaction a tick, outcomes in order, and what builds on a failed row fails
 * with it.
 */
import { expect, test } from "vitest";
import type { NewRow, UpdateLog } from "../store/log-port.ts";
import { StoreFull } from "../store/log-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { type Outcome, SaveLoop } from "./save-loop.ts";

const board = makeBoardId();

function row(byte: number): NewRow {
  return { key: { board, document: "board" }, update: new Uint8Array([byte]), bindings: [] };
}

/** A log whose appends end when the test says so. */
function heldLog() {
  const batches: (readonly NewRow[])[] = [];
  const ends: { store(): void; fail(fault: Error): void }[] = [];
  const append = (rows: readonly NewRow[]) => {
    batches.push(rows);
    return new Promise<void>((resolve, reject) => ends.push({ store: resolve, fail: reject }));
  };
  return { batches, ends, log: { append } as unknown as UpdateLog };
}

function loopOver(log: UpdateLog) {
  const faults: unknown[] = [];
  const loop = new SaveLoop({ log, now: () => performance.now(), onFault: (f) => faults.push(f) });
  const outcomes: string[] = [];
  const save = (byte: number) =>
    new Promise<Outcome>((resolve) => {
      loop.save(row(byte), (outcome) => {
        outcomes.push(`${byte} ${outcome}`);
        resolve(outcome);
      });
    });
  return { loop, save, outcomes, faults };
}

async function nextBatch(batches: readonly unknown[], count: number): Promise<void> {
  while (batches.length < count) await new Promise((resolve) => setImmediate(resolve));
}

test("rows that come in together are one transaction, told in order", async () => {
  const { log, ends, batches } = heldLog();
  const { save, outcomes } = loopOver(log);
  const all = Promise.all([save(1), save(2), save(3)]);
  await nextBatch(batches, 1);
  expect(batches[0]?.length).toBe(3);
  expect(outcomes).toEqual([]);
  ends[0]?.store();
  await all;
  expect(outcomes).toEqual(["1 stored", "2 stored", "3 stored"]);
});

test("nothing is told before the store answers; rows that come meanwhile wait", async () => {
  const { log, ends, batches } = heldLog();
  const { save, outcomes } = loopOver(log);
  const first = save(1);
  await nextBatch(batches, 1);
  const second = save(2);
  ends[0]?.store();
  await first;
  await nextBatch(batches, 2);
  expect(outcomes).toEqual(["1 stored"]);
  ends[1]?.store();
  await second;
  expect(outcomes).toEqual(["1 stored", "2 stored"]);
});

test("a full store fails the batch and what came behind it, not the next row", async () => {
  const { log, ends, batches } = heldLog();
  const { save, outcomes, faults } = loopOver(log);
  const first = save(1);
  await nextBatch(batches, 1);
  const second = save(2);
  ends[0]?.fail(new StoreFull("full"));
  await Promise.all([first, second]);
  expect(outcomes).toEqual(["1 full", "2 full"]);
  expect(faults).toHaveLength(1);
  const third = save(3);
  await nextBatch(batches, 2);
  ends[1]?.store();
  expect(await third).toBe("stored");
});

test("flush waits for everything handed in", async () => {
  const { log, ends, batches } = heldLog();
  const { loop, save, outcomes } = loopOver(log);
  void save(1);
  const flushed = loop.flush().then(() => outcomes.length);
  await nextBatch(batches, 1);
  ends[0]?.store();
  expect(await flushed).toBe(1);
});
