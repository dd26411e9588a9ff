/** What every store of takes must do, whatever it is made of. */
import type { MemberId } from "@halflap/board/board";
import { decodeTakeHead } from "@halflap/board/take";
import type { TakeCard } from "@halflap/wire/api";
import { takeBytesPerBoardMax, takesPerBoardMax } from "@halflap/wire/limits";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { hashOf, makeBoardId, makeLinkId, makeMemberId, makeSecret, makeTakeId } from "./secret.ts";
import type { Store } from "./store.ts";
import { type TrialPlace, trialAdapters } from "./trial-stores.ts";

const player = makeMemberId();

const head = decodeTakeHead({
  name: "Riff",
  bars: [{ bar: "solo~b1", length: 192 }],
  offsetMs: 12.5,
  lengthMs: 4000,
  tempo: 104,
});
if (!head.ok) throw new Error(head.error.words);
const usual = head.value;

function cardOf(sound: Uint8Array, change: Partial<TakeCard> = {}): TakeCard {
  return {
    id: makeTakeId(),
    from: player,
    at: 1000,
    ...usual,
    type: "audio/webm",
    size: sound.length,
    ...change,
  };
}

for (const { name, make } of trialAdapters) {
  describe(name, () => {
    let place: TrialPlace;
    let store: Store;
    const board = makeBoardId();

    const makeBoard = async (id = board) => {
      const leader = { id: player, name: "Ada", role: "leader" } as const;
      const session = hashOf(makeSecret());
      await store.people.makeBoard({ id, leader, session, at: 1, rows: [] });
    };
    const joined = async (): Promise<MemberId> => {
      const [link, newcomer] = [hashOf(makeSecret()), makeMemberId()];
      const times = { madeAt: 1, expiresAt: 2, usesLeft: 1, revoked: false };
      const made = { id: makeLinkId(), role: "player", member: undefined, ...times } as const;
      await store.people.addLink(board, link, made);
      const session = hashOf(makeSecret());
      await store.people.redeem({ link, session, at: 1, name: "Ben", newcomer });
      return newcomer;
    };
    const keep = async (sound: Uint8Array, change: Partial<TakeCard> = {}) => {
      const card = cardOf(sound, change);
      return { card, kept: await store.takes.keep({ board, card, sound }) };
    };

    beforeEach(async () => {
      place = await make(() => 1);
      store = await place.open();
      await makeBoard();
    });

    afterEach(async () => {
      await store.close();
      await place.remove();
    });

    test("takes come back as they were given, oldest first, also after opening again", async () => {
      const sound = new Uint8Array([1, 2, 3, 4, 5]);
      const later = await keep(sound, { at: 2000 });
      const { card } = await keep(sound);
      await store.close();
      store = await place.open();
      expect(await store.takes.list(board)).toEqual([card, later.card]);
      expect((await store.people.standing(board))?.takes).toEqual([card, later.card]);
      expect(await store.takes.card(board, card.id)).toEqual(card);
      expect(await store.takes.read(board, card.id, { start: 0, length: 5 })).toEqual(sound);
      const part = await store.takes.read(board, card.id, { start: 1, length: 2 });
      expect([...(part ?? [])]).toEqual([2, 3]);
    });

    test("a slice is the bytes asked for, wherever it begins and ends", async () => {
      const sound = new Uint8Array(400_007).map((_, i) => (i * 7919) >> 5);
      const { card } = await keep(sound);
      for (const start of [0, 1, 131_071, 131_072, 200_000, 400_000, 400_006, 400_007]) {
        for (const length of [1, 2, 131_072, 300_000]) {
          const slice = await store.takes.read(board, card.id, { start, length });
          expect(
            Buffer.compare(slice ?? Buffer.from("none"), sound.slice(start, start + length)),
          ).toBe(0);
        }
      }
    });

    test("a take is a take of its board alone", async () => {
      const { card } = await keep(new Uint8Array([1]));
      const other = makeBoardId();
      await makeBoard(other);
      expect(await store.takes.list(other)).toEqual([]);
      expect(await store.takes.card(other, card.id)).toBeUndefined();
      expect(await store.takes.read(other, card.id, { start: 0, length: 1 })).toBeUndefined();
      expect(await store.takes.playerOf(other, card.id)).toBeUndefined();
      expect(await store.takes.playerOf(board, card.id)).toBe(player);
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

    test("none comes from who is no member any more, and what they played stays", async () => {
      const from = await joined();
      const { card } = await keep(new Uint8Array([1]), { from });
      await store.people.removeMember(board, from);
      expect((await keep(new Uint8Array([2]), { from })).kept).toBe("gone");
      expect(await store.takes.list(board)).toEqual([card]);
    });

    test("a take kept and a take removed raise the board's count of changes", async () => {
      const versions: (number | undefined)[] = [];
      const look = async () => versions.push((await store.people.peopleVersion([board]))[0]);
      await look();
      const { card } = await keep(new Uint8Array([1]));
      await look();
      await store.takes.remove(board, card.id);
      await look();
      expect(new Set(versions).size).toBe(3);
      expect(versions).toEqual([...versions].sort());
    });
  });
}
