/** What every update log must do, whatever it is made of. */
import type { Me } from "@halflap/wire/api";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import {
  type DocumentKey,
  messageRememberedMs,
  type NewRow,
  type RowId,
  rowId,
} from "./log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "./secret.ts";
import type { Store } from "./store.ts";
import { type TrialPlace, trialAdapters } from "./trial-stores.ts";

for (const { name, isRemote, make } of trialAdapters) {
  describe(name, () => {
    let now: number;
    let place: TrialPlace;
    let store: Store;
    const board = makeBoardId();
    const key: DocumentKey = { board, document: "board" };
    const lane: DocumentKey = { board, document: "lane-upper" };
    const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };

    const makeBoard = (id = board) => {
      const session = hashOf(makeSecret());
      const rows = [rowOf({ board: id, document: "board" }, 0)];
      return store.people.makeBoard({ id, leader, session, at: 1, rows });
    };
    const idsOf = async (rows: readonly NewRow[]): Promise<readonly RowId[]> =>
      (await store.log.append(rows)).map((one) => {
        if (one.kind !== "stored") throw new Error(one.kind);
        return one.row;
      });

    beforeEach(async () => {
      now = 1000;
      place = await make(() => now);
      store = await place.open();
      await makeBoard();
    });

    afterEach(async () => {
      await store.close();
      await place.remove();
    });

    test("rows come back in order of appending, each document's own, under their ids", async () => {
      const ids = await idsOf([rowOf(key, 1), rowOf(lane, 9), rowOf(key, 2)]);
      const stored = await store.log.load(key);
      expect(bytesOf(stored)).toEqual([0, 1, 2]);
      expect(stored.rows.slice(1).map(({ id }) => id)).toEqual([ids[0], ids[2]]);
      expect(stored.head).toBe(ids[2]);
      expect(ids[2]).toBeGreaterThan(ids[0] ?? 0);
      expect(bytesOf(await store.log.load(lane))).toEqual([9]);
    });

    test("everything is there after closing and opening again", async () => {
      const [id] = await idsOf([
        { ...rowOf(key, 1), bindings: [{ client: 5, member: leader.id }] },
      ]);
      await store.close();
      store = await place.open();
      const stored = await store.log.load(key);
      expect([bytesOf(stored), stored.head]).toEqual([[0, 1], id]);
      expect(stored.bindings).toEqual([{ client: 5, member: leader.id }]);
    });

    test("a row under another member's client id is refused, alone and whole", async () => {
      const other = makeMemberId();
      const bound = (byte: number, member: typeof other, client = 5) => ({
        ...rowOf(key, byte),
        bindings: [
          { client: byte + 100, member },
          { client, member },
        ],
      });
      const decided = await store.log.append([
        bound(1, leader.id),
        bound(2, other),
        bound(3, leader.id),
        bound(4, other, 6),
      ]);
      expect(decided.map(({ kind }) => kind)).toEqual(["stored", "foreign", "stored", "stored"]);
      expect((await store.log.append([bound(7, other)]))[0]?.kind).toBe("foreign");
      const { bindings, ...stored } = await store.log.load(key);
      expect(bytesOf(stored)).toEqual([0, 1, 3, 4]);
      const clients = bindings.map(({ client, member }) => [client, member === other]);
      expect(clients.sort()).toEqual([
        [101, false],
        [103, false],
        [104, true],
        [5, false],
        [6, true],
      ]);
    });

    test("rows of a board that is gone are told so, and those beside them stored", async () => {
      const other: DocumentKey = { board: makeBoardId(), document: "board" };
      await makeBoard(other.board);
      await store.people.removeBoard(board);
      const decided = await store.log.append([rowOf(key, 1), rowOf(other, 1)]);
      expect(decided.map(({ kind }) => kind)).toEqual(["gone", "stored"]);
      expect(await store.log.load(key)).toEqual({ rows: [], bindings: [], head: 0 });
      expect(await store.log.since(key, rowId(0))).toEqual({
        kind: "rows",
        rows: [],
        bindings: [],
      });
      expect(bytesOf(await store.log.load(other))).toEqual([0, 1]);
    });

    test("what came behind a row is told with its bindings, nothing before it", async () => {
      const early = [{ client: 1, member: leader.id }];
      const [first = rowId(0)] = await idsOf([{ ...rowOf(key, 1), bindings: early }]);
      expect(await store.log.since(key, first)).toEqual({ kind: "rows", rows: [], bindings: [] });
      const bindings = [{ client: 2, member: leader.id }];
      const [second, third] = await idsOf([{ ...rowOf(key, 2), bindings }, rowOf(key, 3)]);
      expect(await store.log.since(key, first)).toEqual({
        kind: "rows",
        rows: [
          { id: second, update: new Uint8Array([2]) },
          { id: third, update: new Uint8Array([3]) },
        ],
        bindings,
      });
    });

    test("heads are told in the order asked, 0 where there is nothing", async () => {
      const [a, b] = await idsOf([rowOf(lane, 1), rowOf(key, 1)]);
      const empty: DocumentKey = { board, document: "lane-lower" };
      const gone: DocumentKey = { board: makeBoardId(), document: "board" };
      expect(await store.log.heads([key, empty, lane, gone, key])).toEqual([b, 0, a, 0, b]);
      expect(await store.log.heads([])).toEqual([]);
    });

    test("the newest row and the last edit are told; talk is no edit", async () => {
      now = 5000;
      const [row] = await idsOf([rowOf(key, 1)]);
      now = 9000;
      await idsOf([rowOf({ board, document: "talk" }, 1)]);
      expect(await store.log.newest(key)).toEqual({ row, boardEditedAt: 5000 });
    });

    test("compaction replaces rows up to the one named and keeps later ones", async () => {
      const [, last = rowId(0)] = await idsOf([rowOf(key, 1), rowOf(key, 2)]);
      const [later] = await idsOf([rowOf(key, 3), rowOf(lane, 1)]);
      expect(await store.log.compact(key, last, new Uint8Array([77]))).toBe(true);
      const stored = await store.log.load(key);
      expect(bytesOf(stored)).toEqual([77, 3]);
      expect(stored.rows.map(({ id }) => id)).toEqual([last, later]);
      expect(stored.head).toBe(later);
      expect(bytesOf(await store.log.load(lane))).toEqual([1]);
    });

    test("who stands behind a fold is told so; who stands at it or beyond reads on", async () => {
      const [behind = rowId(0), last = rowId(0)] = await idsOf([rowOf(key, 1), rowOf(key, 2)]);
      await store.log.compact(key, last, new Uint8Array([77]));
      const [later] = await idsOf([rowOf(key, 3)]);
      expect(await store.log.since(key, behind)).toEqual({ kind: "compacted" });
      expect(await store.log.since(key, rowId(0))).toEqual({ kind: "compacted" });
      expect(await store.log.since(key, last)).toEqual({
        kind: "rows",
        rows: [{ id: later, update: new Uint8Array([3]) }],
        bindings: [],
      });
    });

    test("of two folds that were read alike the second changes nothing", async () => {
      const [early = rowId(0), last = rowId(0)] = await idsOf([rowOf(key, 1), rowOf(key, 2)]);
      const fold = (row: RowId, byte: number) =>
        store.log.compact(key, row, new Uint8Array([byte]));
      expect(await fold(last, 77)).toBe(true);
      expect(await fold(last, 78)).toBe(false);
      expect(await fold(early, 79)).toBe(false);
      expect(await fold(rowId(last + 1000), 80)).toBe(false);
      expect(await store.log.compact({ board: makeBoardId(), document: "board" }, last, none)).toBe(
        false,
      );
      expect(bytesOf(await store.log.load(key))).toEqual([77]);
      const [next = rowId(0)] = await idsOf([rowOf(key, 3)]);
      expect(await fold(next, 81)).toBe(true);
      expect(bytesOf(await store.log.load(key))).toEqual([81]);
    });

    if (!isRemote) return;

    test("a message that comes again is stored once and told under its first id", async () => {
      const rows = [rowOf(key, 1), rowOf(lane, 1)];
      const ids = await idsOf(rows);
      expect(await idsOf([...rows, rowOf(key, 2), ...rows])).toEqual([
        ...ids,
        expect.any(Number),
        ...ids,
      ]);
      const twice = rowOf(key, 3);
      const [first, second] = await idsOf([twice, twice]);
      expect(second).toBe(first);
      expect(bytesOf(await store.log.load(key))).toEqual([0, 1, 2, 3]);
      // The same message for another document is another row.
      expect(await idsOf([{ ...twice, key: lane }])).not.toEqual([first]);
      expect(bytesOf(await store.log.load(lane))).toEqual([1, 3]);
    });

    test("a message is remembered through a fold for its time, and not for ever", async () => {
      const first = rowOf(key, 1);
      const [id] = await idsOf([first]);
      const [last = rowId(0)] = await idsOf([rowOf(key, 2)]);
      now += messageRememberedMs - 1;
      await store.log.compact(key, last, new Uint8Array([77]));
      expect(await idsOf([first])).toEqual([id]);
      expect(bytesOf(await store.log.load(key))).toEqual([77]);
      const [next = rowId(0)] = await idsOf([rowOf(key, 3)]);
      now += 2;
      await store.log.compact(key, next, new Uint8Array([78]));
      expect(await idsOf([first])).not.toEqual([id]);
      expect(bytesOf(await store.log.load(key))).toEqual([78, 1]);
    });
  });
}

const none = new Uint8Array();

function rowOf(key: DocumentKey, byte: number): NewRow {
  return { key, message: makeMessageId(), update: new Uint8Array([byte]), bindings: [] };
}

function bytesOf({ rows }: { readonly rows: readonly { readonly update: Uint8Array }[] }) {
  return rows.flatMap(({ update }) => [...update]);
}
