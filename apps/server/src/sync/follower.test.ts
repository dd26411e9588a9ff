/**
 * What the follower asks, when, and what it does with the answers: people first, then rows, and
 * nothing is forgotten because the store did not answer.
 */
import type { BoardId } from "@halflap/wire/api";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type DocumentKey, rowId, StoreAway } from "../store/log-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { Follower, followMs } from "./follower.ts";
import { LogPosition } from "./log-position.ts";
import type { Room } from "./room.ts";

const board = makeBoardId();
let heard: string[];
let faults: unknown[];
let version: number;
let heads: Record<string, number>;
let isAway: boolean;
let isFolded: boolean;
let isBroken: boolean;
let stop: () => Promise<void>;
let follower: Follower;

/** As far as the follower goes: a place in its log, and updates that wait. */
function room(document: DocumentKey["document"]): Room {
  const position = new LogPosition(rowId(0));
  return {
    key: { board, document },
    held: { position },
    lateMark: 1,
    follow({ rows }: { rows: readonly { id: number }[] }) {
      if (isBroken && document === "board") throw new Error("a row that can't be read");
      for (const { id } of rows) position.add(rowId(id));
      heard.push(`${document} took ${rows.length}`);
    },
    async loadAnew() {
      position.reach(rowId(heads[document] ?? 0));
      heard.push(`${document} anew`);
    },
    judgeLate: (mark: number) => heard.push(`${document} judges ${mark}`),
  } as unknown as Room;
}

beforeEach(() => {
  vi.useFakeTimers();
  [heard, faults, version, heads, isAway, isFolded] = [[], [], 1, {}, false, false];
  isBroken = false;
  const rooms = [room("board"), room("talk")];
  const asked = async <T>(answer: T): Promise<T> => {
    if (isAway) throw new StoreAway("away");
    return answer;
  };
  follower = new Follower({
    log: {
      heads: (keys) => asked(keys.map(({ document }) => rowId(heads[document] ?? 0))),
      since: ({ document }, after) => {
        const rows = Array.from({ length: (heads[document] ?? 0) - after }, (_, i) => {
          return { id: rowId(after + i + 1), update: new Uint8Array() };
        });
        return asked(isFolded ? { kind: "compacted" } : { kind: "rows", rows, bindings: [] });
      },
    },
    people: { peopleVersion: (boards) => asked(boards.map(() => version)) },
    rooms: {
      open: () => rooms,
      opened: async (key) => rooms.find((room) => room.key.document === key.document),
      read: () => asked({ rows: [], bindings: [], head: rowId(0) }),
      setAside: async ({ document }) => void heard.push(`${document} set aside`),
    },
    desk: {
      follow: async (which: BoardId) => void heard.push(`people of ${which === board}`),
      announce: async () => void heard.push("talk compared"),
    },
    onFault: (fault) => faults.push(fault),
  });
  stop = follower.start();
});

afterEach(async () => {
  await stop();
  vi.useRealTimers();
});

/** What was done in so many rounds. */
async function after(rounds: number): Promise<readonly string[]> {
  heard.length = 0;
  await vi.advanceTimersByTimeAsync(rounds * followMs);
  return [...heard];
}

const judged = ["board judges 1", "talk judges 1"];

test("people are read when their version is another; talk is compared a look later", async () => {
  expect(await after(1)).toEqual(["people of true", ...judged]);
  expect(await after(2)).toEqual([...judged, "talk compared", ...judged]);
  version = 2;
  expect(await after(1)).toEqual(["people of true", ...judged]);
});

test("rows behind are taken once, a folded log anew, and talk's are compared", async () => {
  await after(2);
  heads = { board: 3, talk: 1 };
  expect(await after(1)).toEqual(["board took 3", judged[0], "talk took 1", judged[1]]);
  expect(await after(1)).toEqual([...judged, "talk compared"]);
  [heads, isFolded] = [{ board: 9, talk: 1 }, true];
  expect(await after(2)).toEqual(["board anew", ...judged, ...judged]);
});

test("while the store is away nothing is judged or forgotten", async () => {
  await after(2);
  [version, heads, isAway] = [2, { board: 1 }, true];
  expect(await after(3)).toEqual([]);
  expect(faults).toHaveLength(3);
  isAway = false;
  expect(await after(1)).toEqual(["people of true", "board took 1", ...judged]);
});

test("a document that can't be followed is set aside, and keeps no other from it", async () => {
  await after(2);
  [heads, isBroken] = [{ board: 1, talk: 1 }, true];
  expect(await after(1)).toEqual(["board set aside", "talk took 1", "talk judges 1"]);
  expect(faults).toHaveLength(1);
  isBroken = false;
  expect(await after(1)).toEqual(["board took 1", ...judged, "talk compared"]);
});

test("asked for one document it looks at that one, at once, and not after its end", async () => {
  await after(2);
  heads = { board: 1, talk: 1 };
  heard.length = 0;
  await follower.look({ board, document: "board" });
  expect(heard).toEqual(["board took 1", "board judges 1"]);
  await stop();
  expect(await after(2)).toEqual([]);
});

test("a word makes it look at that document, unless the row is here or it is shut", async () => {
  await after(2);
  heads = { board: 2 };
  heard.length = 0;
  await follower.hear({ key: { board, document: "board" }, row: rowId(2) });
  expect(heard).toEqual(["board took 2", "board judges 1"]);
  heard.length = 0;
  await follower.hear({ key: { board, document: "board" }, row: rowId(1) });
  await follower.hear({ key: { board, document: "lane-upper" }, row: rowId(1) });
  expect(heard).toEqual([]);
});

test("a place in the log: own rows beyond others' stand apart until those are here", () => {
  const position = new LogPosition(rowId(3));
  expect([position.add(rowId(6)), position.hasGap, position.isBehind(rowId(6))]).toEqual([
    true,
    true,
    true,
  ]);
  expect([position.add(rowId(6)), position.add(rowId(2))]).toEqual([false, false]);
  expect([position.add(rowId(4)), position.reached]).toEqual([true, 4]);
  expect([position.add(rowId(5)), position.reached, position.hasGap]).toEqual([true, 6, false]);
  position.add(rowId(10));
  position.reach(rowId(9));
  expect([position.reached, position.hasGap]).toEqual([10, false]);
});
