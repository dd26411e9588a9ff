/**
 * Rows on their way that fall, and frames that repeat what is on its way: each is answered, at a
 * cost that does not grow with how many fall.
 */
import { memberId } from "@halflap/board/talk";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { PageAtRoom } from "../../../../tests/fakes/page-at-room.ts";
import {
  type Appended,
  type Binding,
  type DocumentKey,
  rowId,
  StoreFull,
  type UpdateLog,
} from "../store/log-port.ts";
import { makeBoardId } from "../store/secret.ts";
import { KnownState } from "./known-state.ts";
import { Room } from "./room.ts";
import { SaveLoop } from "./save-loop.ts";

const ada = memberId("ada");
const key: DocumentKey = { board: makeBoardId(), document: "board" };
const rowsMany = 50;

type Decide = "stored" | "foreign" | "full";

/** Ends each commit that began, in turn. */
let commits: ((decide: Decide) => void)[];
let saveLoop: SaveLoop;

beforeEach(() => {
  commits = [];
  let rows = 0;
  const append: UpdateLog["append"] = (batch) =>
    new Promise((resolve, reject) => {
      commits.push((decide) => {
        if (decide === "full") reject(new StoreFull("full"));
        else resolve(batch.map(() => decided(decide)));
      });
    });
  const decided = (decide: "stored" | "foreign"): Appended => {
    if (decide === "foreign") return { kind: "foreign" };
    rows += 1;
    return { kind: "stored", row: rowId(rows) };
  };
  const log = { append } as unknown as UpdateLog;
  saveLoop = new SaveLoop({ log, now: () => performance.now(), onFault: () => undefined });
});

afterEach(() => vi.restoreAllMocks());

/** A room of Ada's, where the disk knows some of her ids, and two pages of hers. */
function open(bound: readonly number[]) {
  const bindings: readonly Binding[] = bound.map((client) => ({ client, member: ada }));
  const room = new Room(
    key,
    { rows: [], bindings, head: rowId(0) },
    {
      saveLoop,
      memberNow: () => ({ id: ada, name: "Ada", role: "leader" }),
      ownersNow: () => ({ upper: undefined, lower: undefined }),
    },
  );
  const now = () => performance.now();
  return { writer: new PageAtRoom(room, ada, 1, now), other: new PageAtRoom(room, ada, 2, now) };
}

/** The commit that began longest ago, once it did, ends so. */
async function end(decide: Decide): Promise<void> {
  while (commits.length === 0) await turn();
  commits.shift()?.(decide);
  await turn();
}

function turn(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

function hasBegun(): Promise<void> {
  return vi.waitFor(() => expect(commits).toHaveLength(1));
}

test("a repeat is decided with the rows before it, though others go on writing", async () => {
  const { writer, other } = open([1]);
  writer.map.set("a", 1);
  await hasBegun();
  expect(other.hears()).toEqual(["edit"]);
  other.answer();
  writer.map.set("a", 2); // waits for the next commit
  expect(other.hears()).toEqual(["edit"]);
  await end("stored");
  expect(other.hears()).toEqual(["saved 1"]);
  await end("stored");
});

test("a repeat of a row that is foreign is asked for, then decided", async () => {
  const { writer, other } = open([]);
  writer.map.set("a", 1);
  await hasBegun();
  other.take(Y.encodeStateAsUpdate(writer.doc));
  other.answer();
  await end("foreign");
  expect(other.hears()).toEqual(["asked", "saved 0"]);
});

test.each([
  ["full", [1], 1, "store-full"],
  ["foreign", [], 2, "asked"],
] as const)("rows that fall as %s are taken back together", async (decide, bound, most, word) => {
  const { writer, other } = open(bound);
  const copies = vi.spyOn(KnownState.prototype, "copy");
  writer.map.set("first", 1);
  await hasBegun();
  for (let i = 1; i < rowsMany; i += 1) writer.map.set(`k${i}`, i);
  other.hears();
  await end(decide);
  await saveLoop.flush();
  const asked = other.hears().filter((each) => each === "asked").length;
  expect(copies.mock.calls.length).toBeLessThanOrEqual(most);
  expect(asked).toBe(decide === "full" ? 0 : 1);
  expect(writer.hears()).toContain(word);
});

test("what fell is asked for as it stands on disk, and taken when it comes again", async () => {
  const { writer, other } = open([1]);
  for (let i = 0; i < rowsMany; i += 1) writer.map.set(`k${i}`, i);
  await end("full");
  other.hears();
  writer.answer();
  await end("stored");
  await saveLoop.flush();
  expect(other.hears()).toEqual(["edit"]);
  expect(other.map.size).toBe(rowsMany);
});

test("who is slow to read is asked too for what fell behind another's trespass", async () => {
  const { writer, other } = open([2]);
  writer.map.set("a", 1); // binds an id that the disk does not know yet
  await hasBegun();
  other.map.set("b", 1);
  other.hears();
  other.seat.behindFrom = new Map(); // from here on it is told nothing of others
  await end("foreign");
  await saveLoop.flush();
  expect(other.hears()).toContain("asked");
});
