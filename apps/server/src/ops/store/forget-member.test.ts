/** Whom a forgetting takes along: who has the same name at the same browser, others when named. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "../../store/secret.ts";
import { openStore, storeFile } from "../../store/sqlite/store.ts";
import { forgetMember } from "./forget-member.ts";

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-forget-"));
});

afterEach(() => rmSync(folder, { recursive: true }));

/** One browser leads a board under each name; who it is there. */
async function members(...names: readonly string[]): Promise<readonly string[]> {
  const store = openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => 1);
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
