/** What every store must do when it keeps as many boards as it may. */
import { expect, test, vi } from "vitest";
import { boardTrial } from "../ops/readiness.ts";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "./secret.ts";
import { trialAdapters } from "./trial-stores.ts";

vi.mock(import("@halflap/wire/limits"), async (original) => {
  return { ...(await original()), boardsPerServerMax: 1 as never };
});

test.each(trialAdapters)(
  "$name makes no more boards, and a trial all the same",
  async (adapter) => {
    const place = await adapter.make(() => 1);
    const store = await place.open();
    const makeBoard = () => {
      const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
      const session = hashOf(makeSecret());
      return store.people.makeBoard({ id: makeBoardId(), leader, session, at: 1, rows: [] });
    };
    const made = [await makeBoard(), await makeBoard()];
    const written: boolean[] = [];
    const { people } = store;
    const watched = {
      ...people,
      makeBoard: async (board: Parameters<typeof people.makeBoard>[0]) => {
        const answer = await people.makeBoard(board);
        written.push(((await people.documentBytes(board.id)).get("board") ?? 0) > 0);
        return answer;
      },
    };
    await boardTrial(watched, () => 1)();
    await store.close();
    await place.remove();
    expect(made).toEqual(["made", "full"]);
    expect(written).toEqual([true]);
  },
);
