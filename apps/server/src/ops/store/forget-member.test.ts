/** Whom a forgetting takes along: who has the same name at the same browser, others when named. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BoardId, Me } from "@halflap/wire/api";
import { afterEach, beforeEach, expect, test } from "vitest";
import {
  hashOf,
  makeBoardId,
  makeLinkId,
  makeMemberId,
  makeMessageId,
  makeSecret,
} from "../../store/secret.ts";
import { openStore, storeFile } from "../../store/sqlite/store.ts";
import type { Store } from "../../store/store.ts";
import { forgetMember } from "./forget-member.ts";
import { CantDo } from "./place.ts";

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-forget-"));
});

afterEach(() => rmSync(folder, { recursive: true }));

const opened = () => openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => 1);

/** One browser leads a board under each name; who it is there. */
async function members(...names: readonly string[]): Promise<readonly string[]> {
  const store = opened();
  const session = hashOf(makeSecret());
  const ids: string[] = [];
  for (const name of names) {
    const leader = { id: makeMemberId(), name, role: "leader" } as const;
    await store.people.makeBoard({ id: makeBoardId(), leader, session, at: 1, rows: [] });
    ids.push(leader.id);
  }
  await store.close();
  return ids;
}

const forget = (member = "", also: readonly string[] = []) =>
  forgetMember({ kind: "file", path: folder }, { member, also, withBoards: true }, 1);

test("who has the same name on another board goes too", async () => {
  const [first] = await members("Ada", "Ada");
  expect((await forget(first)).boards).toHaveLength(2);
});

test("who has another name there is told, and goes when named", async () => {
  const [first, second = "", third = ""] = await members("Ada", "Ben", "Cleo");
  await expect(forget(first)).rejects.toThrow(`"Ben" (${second}) on `);
  await expect(forget(first, [second])).rejects.toThrow(`--also ${third}.`);
  expect((await forget(first, [second, third])).boards).toHaveLength(3);
});

/** A board that somebody leads and somebody else could. */
async function makeShared(store: Store, board: BoardId, leader: Me): Promise<void> {
  const [link, session] = [hashOf(makeSecret()), hashOf(makeSecret())];
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  await store.people.addLink(board, link, {
    ...{ id: makeLinkId(), role: "player", member: undefined },
    ...{ madeAt: 1, expiresAt: 9, usesLeft: 1, revoked: false },
  });
  const ben = { session: hashOf(makeSecret()), name: "Ben", newcomer: makeMemberId() };
  await store.people.redeem({ link, at: 1, ...ben });
}

test("a board whose talk can't be read is named, and nothing is changed on any", async () => {
  const boards = [makeBoardId(), makeBoardId(), makeBoardId()];
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  const held = async (store: Store) => {
    const peopleOf = async (board: BoardId) => (await store.people.standing(board))?.members;
    const talkOf = (board: BoardId) => store.log.load({ board, document: "talk" });
    return [await Promise.all(boards.map(peopleOf)), await Promise.all(boards.map(talkOf))];
  };
  const store = opened();
  for (const board of boards) await makeShared(store, board, leader);
  const [, damaged = makeBoardId()] = boards;
  const key = { board: damaged, document: "talk" } as const;
  const row = { key, message: makeMessageId(), update: new Uint8Array([9, 9]), bindings: [] };
  await store.log.append([row]);
  const before = await held(store);
  await store.close();

  const said = await forget(leader.id).catch((fault: unknown) => fault);
  expect(said).toBeInstanceOf(CantDo);
  expect(String(said)).toContain(`${damaged} talk: row 1 of 1 can't be read.`);
  const after = opened();
  expect(await held(after)).toEqual(before);
  await after.close();
});
