/**
 * The save loop: one transaction a tick, outcomes in order, and what builds on a failed row fails
 * with it.
 */
import { unsavedBytesMax } from "@halflap/wire/limits";
import { expect, test } from "vitest";
import { type Appended, type NewRow, rowId, StoreFull, type UpdateLog } from "../store/log-port.ts";
import { makeBoardId, makeMemberId, makeMessageId } from "../store/secret.ts";
import { type Outcome, SaveLoop, urgentTickMs } from "./save-loop.ts";

const board = makeBoardId();

function row(byte: number, more: Partial<NewRow> = {}): NewRow {
  const key = { board, document: "board" } as const;
  const update = new Uint8Array([byte]);
  return { key, message: makeMessageId(), update, bindings: [], ...more };
}

/** A log whose appends end when the test says so. */
function heldLog() {
  const batches: (readonly NewRow[])[] = [];
  const ends: {
    store(): void;
    decide(kinds: readonly Appended["kind"][]): void;
    fail(fault: Error): void;
  }[] = [];
  const append = (rows: readonly NewRow[]) => {
    batches.push(rows);
    return new Promise<readonly Appended[]>((resolve, reject) => {
      const decide = (kinds: readonly Appended["kind"][]) =>
        resolve(kinds.map((kind) => (kind === "stored" ? { kind, row: rowId(1) } : { kind })));
      ends.push({ store: () => decide(rows.map(() => "stored")), decide, fail: reject });
    });
  };
  return { batches, ends, log: { append } as unknown as UpdateLog };
}

function loopOver(log: UpdateLog) {
  const faults: unknown[] = [];
  const loop = new SaveLoop({ log, now: () => performance.now(), onFault: (f) => faults.push(f) });
  const outcomes: string[] = [];
  const save = (byte: number, more: Partial<NewRow> = {}) =>
    new Promise<Outcome["kind"]>((resolve) => {
      loop.save(row(byte, more), ({ kind }) => {
        outcomes.push(`${byte} ${kind}`);
        resolve(kind);
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

test("what somebody waits to hear is stored before the next tick", async () => {
  const { log, ends, batches } = heldLog();
  let time = 0;
  const loop = new SaveLoop({ log, now: () => time, onFault: () => undefined });
  loop.save(row(1), () => undefined);
  await nextBatch(batches, 1);
  ends[0]?.store();
  await new Promise((resolve) => setImmediate(resolve));
  time = -1_000_000; // the next tick is a quarter of an hour away
  loop.save(row(2), () => undefined);
  time = urgentTickMs;
  loop.save(row(3), () => undefined, true);
  await nextBatch(batches, 2);
  expect(bytesOf(batches[1])).toEqual([2, 3]);
  ends[1]?.store();
  await loop.flush();
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

const mine = { bindings: [{ client: 5, member: makeMemberId() }] };
const elsewhere = { key: { board: makeBoardId(), document: "board" } } as const;
const bytesOf = (rows: readonly NewRow[] | undefined) =>
  (rows ?? []).flatMap(({ update }) => [...update]);

test("behind a row that binds a client id come only rows refused with it", async () => {
  const { log, ends, batches } = heldLog();
  const { save } = loopOver(log);
  const all = [save(1, mine), save(2, mine), save(3), save(4, mine), save(5, elsewhere), save(6)];
  await nextBatch(batches, 1);
  expect(bytesOf(batches[0])).toEqual([1, 2, 5]);
  ends[0]?.store();
  await nextBatch(batches, 2);
  expect(bytesOf(batches[1])).toEqual([3, 4]);
  ends[1]?.store();
  await nextBatch(batches, 3);
  expect(bytesOf(batches[2])).toEqual([6]);
  ends[2]?.store();
  expect(new Set(await Promise.all(all))).toEqual(new Set(["stored"]));
});

test("a foreign row fails alone; what waits behind it is asked for again", async () => {
  const { log, ends, batches } = heldLog();
  const { save, outcomes, faults } = loopOver(log);
  const first = [save(1, mine), save(2), save(3, elsewhere)];
  await nextBatch(batches, 1);
  const meanwhile = [save(4), save(5, elsewhere)];
  ends[0]?.decide(["foreign", "stored"]);
  await Promise.all([...first, meanwhile[0]]);
  expect(outcomes).toEqual(["1 foreign", "3 stored", "2 again", "4 again"]);
  await nextBatch(batches, 2);
  expect(bytesOf(batches[1])).toEqual([5]);
  ends[1]?.store();
  await Promise.all(meanwhile);
  expect(faults).toEqual([]);
});

test("what waits is bounded, and the bound is free again when it is decided", async () => {
  const { log, ends, batches } = heldLog();
  const { loop, save } = loopOver(log);
  const large = { update: new Uint8Array(unsavedBytesMax - 10) };
  const first = save(1, large);
  expect([loop.hasRoomFor(10), loop.hasRoomFor(11)]).toEqual([true, false]);
  await nextBatch(batches, 1);
  const second = save(2, { update: new Uint8Array(10) });
  expect(loop.hasRoomFor(1)).toBe(false);
  ends[0]?.fail(new StoreFull("full"));
  await Promise.all([first, second]);
  expect(loop.hasRoomFor(unsavedBytesMax)).toBe(true);
});

test("a flush waits for what was handed in before it and for nothing after", async () => {
  const { log, ends, batches } = heldLog();
  const { loop, save, outcomes } = loopOver(log);
  void save(1);
  await nextBatch(batches, 1);
  void save(2);
  const flushed = loop.flush();
  ends[0]?.store();
  await nextBatch(batches, 2);
  void save(3);
  ends[1]?.store();
  await flushed;
  expect(outcomes).toEqual(["1 stored", "2 stored"]);
  await nextBatch(batches, 3);
  ends[2]?.store();
  await loop.flush();
  expect(outcomes).toHaveLength(3);
});
