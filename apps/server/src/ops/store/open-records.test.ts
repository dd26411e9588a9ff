/** Commands that change a store look first whether it is one, and one of theirs. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import { openStore, storeFile } from "../../store/sqlite/store.ts";
import { forgetMember } from "./forget-member.ts";
import { CantDo } from "./place.ts";
import { raiseEpochs } from "./raise-epochs.ts";

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-changing-"));
});

afterEach(() => rmSync(folder, { recursive: true }));

const somebody = { member: "somebody", also: [], withBoards: false };

/** What each of them says of a file that it can't change. */
async function refusals(path: string): Promise<readonly string[]> {
  const place = { kind: "file", path } as const;
  const words: string[] = [];
  for (const change of [() => raiseEpochs(place, 1), () => forgetMember(place, somebody, 1)]) {
    const fault: unknown = await change().catch((thrown: unknown) => thrown);
    words.push(fault instanceof CantDo ? fault.message : `not refused: ${fault}`);
  }
  return words;
}

test("a store of a newer server is refused, and left as it is", async () => {
  const path = join(folder, storeFile);
  await openStore({ path, pagesMax: undefined }, () => 1).close();
  const db = new Sqlite(path);
  db.pragma("user_version = 99");
  db.close();
  const isNewer = expect.stringMatching(/has schema 99, made by a newer server/);
  expect(await refusals(folder)).toEqual([isNewer, isNewer]);
  const after = new Sqlite(path);
  expect(after.pragma("journal_mode", { simple: true })).toBe("wal");
  after.close();
});

test.each([0, 3, 5])(
  "a file of another program, at its schema %i, is left as it is",
  async (at) => {
    const path = join(folder, "other.sqlite");
    const other = new Sqlite(path);
    other.exec(`CREATE TABLE theirs (x); PRAGMA user_version = ${at}`);
    other.close();
    const before = readFileSync(path);
    const isNone = expect.stringContaining("is no store");
    expect(await refusals(path)).toEqual([isNone, isNone]);
    expect(readFileSync(path)).toEqual(before);
  },
);
