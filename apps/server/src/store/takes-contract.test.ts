/** What every store of takes must do, whatever it is made of; a second adapter joins the list. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { barId } from "@halflap/board/ids";
import { ticks } from "@halflap/theory/units";
import type { TakeCard } from "@halflap/wire/api";
import { takeBytesPerBoardMax, takesPerBoardMax } from "@halflap/wire/limits";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { StoreFull } from "./log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeSecret, makeTakeId } from "./secret.ts";
import { openStore, storeFile } from "./sqlite/store.ts";

type Store = ReturnType<typeof openStore>;
type Adapter = { readonly name: string; open(folder: string, pagesMax?: number): Store };

const adapters: readonly Adapter[] = [
  {
    name: "SQLite",
    open: (folder, pagesMax) => openStore({ path: join(folder, storeFile), pagesMax }, () => 1),
  },
];

const player = makeMemberId();

function cardOf(sound: Uint8Array, change: Partial<TakeCard> = {}): TakeCard {
  return {
    id: makeTakeId(),
    from: player,
    at: 1000,
    name: "Riff",
    bars: [{ bar: barId("solo~b1"), length: ticks(192) }],
    offsetMs: 12.5,
    lengthMs: 4000,
    tempo: 104,
    type: "audio/webm",
    size: sound.length,
    ...change,
  };
}

for (const { name, open } of adapters) {
  describe(name, () => {
    let folder: string;
    let store: Store;
    const board = makeBoardId();

    const makeBoard = async (id = board) => {
      const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
      const session = hashOf(makeSecret());
      await store.people.makeBoard({ id, leader, session, at: 1, rows: [] });
    };
    const keep = async (sound: Uint8Array, change: Partial<TakeCard> = {}) => {
      const card = cardOf(sound, change);
      return { card, kept: await store.takes.keep({ board, card, sound }) };
    };

    beforeEach(async () => {
      folder = mkdtempSync(join(tmpdir(), "halflap-takes-"));
      store = open(folder);
      await makeBoard();
    });

    afterEach(async () => {
      await store.close();
      rmSync(folder, { recursive: true });
    });

    test("takes come back as they were given, oldest first, also after opening again", async () => {
      const sound = new Uint8Array([1, 2, 3, 4, 5]);
      const later = await keep(sound, { at: 2000 });
      const { card } = await keep(sound);
      await store.close();
      store = open(folder);
      expect(await store.takes.list(board)).toEqual([card, later.card]);
      expect((await store.people.standing(board))?.takes).toEqual([card, later.card]);
      expect(await store.takes.card(board, card.id)).toEqual(card);
      expect(await store.takes.read(board, card.id, { start: 0, length: 5 })).toEqual(sound);
      const part = await store.takes.read(board, card.id, { start: 1, length: 2 });
      expect([...(part ?? [])]).toEqual([2, 3]);
    });

    test("a take is a take of its board alone", async () => {
      const { card } = await keep(new Uint8Array([1]));
      const other = makeBoardId();
      await makeBoard(other);
      expect(await store.takes.list(other)).toEqual([]);
      expect(await store.takes.card(other, card.id)).toBeUndefined();
      expect(await store.takes.read(other, card.id, { start: 0, length: 1 })).toBeUndefined();
      expect(await store.takes.remove(other, card.id)).toBe(false);
      expect(await store.takes.remove(board, card.id)).toBe(true);
      expect(await store.takes.remove(board, card.id)).toBe(false);
    });

    test("a board holds so many takes, and one more when one is gone", async () => {
      const cards: TakeCard[] = [];
      for (let i = 0; i < takesPerBoardMax; i += 1)
        cards.push((await keep(new Uint8Array(1))).card);
      expect((await keep(new Uint8Array(1))).kept).toBe("full");
      const [first] = cards;
      if (first !== undefined) await store.takes.remove(board, first.id);
      expect((await keep(new Uint8Array(1))).kept).toBe("kept");
    });

    test("a board holds so many bytes of takes, and not one more", async () => {
      const half = new Uint8Array(takeBytesPerBoardMax / 2);
      expect((await keep(half)).kept).toBe("kept");
      expect((await keep(half)).kept).toBe("kept");
      expect((await keep(new Uint8Array(1))).kept).toBe("full");
    });

    test("takes go with their board, and none comes to a board that is gone", async () => {
      const { card } = await keep(new Uint8Array([1]));
      await store.people.removeBoard(board);
      expect(await store.takes.card(board, card.id)).toBeUndefined();
      expect((await keep(new Uint8Array([1]))).kept).toBe("gone");
    });

    test("without room on the disk nothing of a take is stored", async () => {
      await store.close();
      store = open(folder, 64);
      await expect(keep(new Uint8Array(400_000))).rejects.toThrow(StoreFull);
      expect(await store.takes.list(board)).toEqual([]);
    });
  });
}

test("a file from before there were takes gets them, and keeps what it has", async () => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-takes-"));
  const path = join(folder, storeFile);
  const board = makeBoardId();
  const first = openStore({ path, pagesMax: undefined }, () => 1);
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  const session = hashOf(makeSecret());
  await first.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  await first.close();
  const db = new Sqlite(path);
  db.exec("DROP TABLE takes; PRAGMA user_version = 1");
  db.close();
  const store = openStore({ path, pagesMax: undefined }, () => 1);
  expect(await store.people.memberOf(session, board)).toEqual(leader);
  const sound = new Uint8Array([1]);
  expect(await store.takes.keep({ board, card: cardOf(sound), sound })).toBe("kept");
  await store.close();
  rmSync(folder, { recursive: true });
});
