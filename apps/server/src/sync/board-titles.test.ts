/** Titles for the list of boards: read from the document, and never older than what is stored. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTitle } from "@halflap/board/edits/chart";
import type { BoardId } from "@halflap/wire/api";
import { afterEach, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { type DocumentKey, rowId } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../store/secret.ts";
import { openStore } from "../store/sqlite/store.ts";
import { BoardTitles, titlesPerAskerMax, titleWaitMs } from "./board-titles.ts";
import { compactionOf } from "./compaction.ts";
import { foldingHere } from "./folding-here.ts";
import { Unreadable } from "./folding-port.ts";
import { usualBounds } from "./folding-thread.ts";
import { quarantineMs, SetAside } from "./quarantine.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";

const asker = "somebody";

test("a title is current after every edit and every fold, and dated by the last edit", async () => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-titles-"));
  let now = 1000;
  const store = openStore({ path: join(folder, "titles.sqlite"), pagesMax: undefined }, () => now);
  const board = makeBoardId();
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: now, rows: [] });
  const key: DocumentKey = { board, document: "board" };
  const { log, people } = store;
  const faults: unknown[] = [];
  const onFault = (fault: unknown) => faults.push(fault);
  const saveLoop = new SaveLoop({ log, now: () => now, onFault });
  const rooms = new Rooms({ log, people, saveLoop, onFault });
  const titles = new BoardTitles({ log, rooms, folding: foldingHere, clock: () => now, onFault });
  const doc = new Y.Doc();
  const waiting: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => waiting.push(update));

  for (const title of ["One", "Two", "Three", "Four"]) {
    now += 1000;
    setTitle(doc, title);
    setTitle(doc, `${title} again`);
    await store.log.append(
      waiting.splice(0).map((update) => ({ key, message: makeMessageId(), update, bindings: [] })),
    );
    const fold = compactionOf((await store.log.load(key)).rows);
    if (fold !== undefined) await store.log.compact(key, fold.last, fold.snapshot);
    expect(await titles.read(board, asker)).toEqual({ title: `${title} again`, editedAt: now });
  }
  expect(faults).toEqual([]);
  const damaged = { key, message: makeMessageId(), update: new Uint8Array([9, 9]), bindings: [] };
  await log.append([damaged]);
  expect(await titles.read(board, asker)).toEqual({ title: "", editedAt: now });
  expect(faults).toHaveLength(1);
  await store.close();
  rmSync(folder, { recursive: true });
});

afterEach(() => {
  vi.useRealTimers();
});

/** What stands in for bytes: nobody here may look into them. */
const bytes = new Uint8Array([1, 2, 3]);

/** Titles over boards at a row that can be raised, each reading answered by the test. */
function staged() {
  const readings: ((title: string | Error) => void)[] = [];
  const stage = { row: 7, clock: 0, faults: [] as unknown[], isSetAside: false };
  const title = (updates: readonly Uint8Array[]) => {
    expect(updates).toEqual([bytes]);
    return new Promise<string>((resolve, reject) => {
      readings.push((said) => (typeof said === "string" ? resolve(said) : reject(said)));
    });
  };
  const look = async () => {
    if (stage.isSetAside) throw new SetAside();
    const id = rowId(stage.row);
    return { stored: { rows: [{ id, update: bytes }], bindings: [], head: id }, rows: 1 };
  };
  const titles = new BoardTitles({
    log: { newest: async () => ({ row: rowId(stage.row), boardEditedAt: 5 }) },
    rooms: { look },
    folding: { title },
    clock: () => stage.clock,
    onFault: (fault) => stage.faults.push(fault),
  });
  return { stage, readings, titles };
}

const board = makeBoardId();
const turn = () => new Promise((resolve) => setImmediate(resolve));

test("a title is read beside this thread, once for all who ask meanwhile", async () => {
  const { readings, titles } = staged();
  const asked = [titles.read(board, asker), titles.read(board, asker), titles.read(board, asker)];
  await turn();
  expect(readings).toHaveLength(1);
  readings[0]?.("Blue");
  expect(await Promise.all(asked)).toEqual(Array(3).fill({ title: "Blue", editedAt: 5 }));
  expect((await titles.read(board, asker)).title).toBe("Blue");
  expect(readings).toHaveLength(1);
});

test("who asks after an edit that a reading lacks has the title from the next one", async () => {
  const { stage, readings, titles } = staged();
  const early = titles.read(board, asker);
  await turn();
  stage.row += 1;
  const late = titles.read(board, asker);
  await turn();
  expect(readings).toHaveLength(1);
  readings[0]?.("Old");
  expect((await early).title).toBe("Old");
  await turn();
  readings[1]?.("New");
  expect((await late).title).toBe("New");
});

test("one board is read at a time", async () => {
  const { readings, titles } = staged();
  const asked = [titles.read(board, asker), titles.read(makeBoardId(), asker)];
  await turn();
  expect(readings).toHaveLength(1);
  readings[0]?.("One");
  await turn();
  readings[1]?.("Two");
  expect((await Promise.all(asked)).map(({ title }) => title)).toEqual(["One", "Two"]);
});

test("a list does not wait for a reading that takes long, and the next one has it", async () => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const { stage, readings, titles } = staged();
  const waiting = titles.read(board, asker);
  await vi.advanceTimersByTimeAsync(titleWaitMs);
  expect(await waiting).toEqual({ title: "", editedAt: 5 });
  readings[0]?.("Slow");
  await turn();
  expect((await titles.read(board, asker)).title).toBe("Slow");
  stage.row += 1;
  const again = titles.read(board, asker);
  await vi.advanceTimersByTimeAsync(titleWaitMs);
  expect((await again).title).toBe("Slow");
  expect(vi.getTimerCount()).toBe(0);
});

test("a reading that fails gives no title, and one that can't succeed is let be", async () => {
  const { stage, readings, titles } = staged();
  const read = async (said: Error) => {
    const count = readings.length;
    const reading = titles.read(board, asker);
    await turn();
    readings[count]?.(said);
    return (await reading).title;
  };
  const passing = new Error("too much waits already");
  const lasting = new Unreadable("its title takes longer than 1 ms");
  expect(await read(passing)).toBe("");
  expect(await read(lasting)).toBe("");
  expect(readings).toHaveLength(2);
  stage.row += 1;
  expect(await read(lasting)).toBe("");
  expect(readings).toHaveLength(2);
  stage.clock += quarantineMs;
  expect(await read(lasting)).toBe("");
  expect(readings).toHaveLength(3);
  expect(stage.faults).toEqual([passing, lasting, lasting]);
  stage.clock += quarantineMs;
  stage.row += 1;
  stage.isSetAside = true;
  expect((await titles.read(board, asker)).title).toBe("");
  expect(stage.faults).toHaveLength(3);
});

test("of the titles that one asks for few wait, so that others have theirs soon", async () => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const { readings, titles } = staged();
  const boards = Array.from({ length: 50 }, makeBoardId);
  const read = (who: string, of: readonly BoardId[]) => of.map((one) => titles.read(one, who));
  const many = read("many", boards);
  await turn();
  const others = read("other", [board]);
  await turn();
  for (let i = 0; i <= titlesPerAskerMax; i += 1) {
    readings[i]?.(`Title ${i}`);
    await turn();
  }
  expect(await Promise.all(others)).toEqual([{ title: "Title 2", editedAt: 5 }]);
  await vi.advanceTimersByTimeAsync(titleWaitMs);
  expect((await Promise.all(many)).filter(({ title }) => title !== "")).toHaveLength(2);
  const before = readings.length;
  for (let i = before - 1; i < boards.length; i += 1) {
    readings[i]?.("Late");
    await turn();
  }
  // Those that few waited for are read to their end; the rest is asked for by the next list.
  expect(readings).toHaveLength(before + titlesPerAskerMax - 1);
  const again = read("many", boards);
  for (let i = readings.length - 1; i < boards.length + 1; i += 1) {
    await turn();
    readings[i]?.("Again");
  }
  expect((await Promise.all(again)).filter(({ title }) => title === "")).toEqual([]);
  expect(vi.getTimerCount()).toBe(0);
});

test("reading a title may take as long as a list waits for it", () => {
  expect(usualBounds.title).toBeLessThanOrEqual(titleWaitMs);
});
