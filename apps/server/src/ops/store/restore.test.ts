/** A restoring that is cut off: there is a store all the time, the old one or the restored. */
import { linkSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BoardId } from "@halflap/wire/api";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "../../store/secret.ts";
import { openStore, storeFile } from "../../store/sqlite/store.ts";
import { backUp } from "./backup.ts";
import { openToRead } from "./place.ts";
import { restore } from "./restore.ts";

const cut = vi.hoisted(() => ({ isOff: false }));

vi.mock(import("node:fs"), async (original) => {
  const fs = await original();
  const renameSync: typeof fs.renameSync = (from, to) => {
    if (cut.isOff && String(from).endsWith(".restoring")) throw new Error("cut off");
    fs.renameSync(from, to);
  };
  return { ...fs, renameSync };
});

let folder: string;
let file: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-restore-"));
  file = join(folder, storeFile);
  cut.isOff = false;
});

afterEach(() => rmSync(folder, { recursive: true }));

async function addBoard(): Promise<BoardId> {
  const store = openStore({ path: file, pagesMax: undefined }, () => 1);
  const id = makeBoardId();
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  await store.people.makeBoard({ id, leader, session: hashOf(makeSecret()), at: 1, rows: [] });
  await store.close();
  return id;
}

function boardsIn(path: string): readonly string[] {
  const db = openToRead(path);
  const rows = db.prepare<[], { id: string }>("SELECT id FROM boards").all();
  db.close();
  return rows.map(({ id }) => id).sort();
}

test("a store stands under its name until the restored one takes it, and is kept", async () => {
  const first = await addBoard();
  const backup = join(folder, "backup.sqlite");
  backUp(folder, backup);
  const second = await addBoard();
  const both = [first, second].sort();

  cut.isOff = true;
  await expect(restore(backup, folder, 5_000)).rejects.toThrow("cut off");
  expect(boardsIn(file)).toEqual(both);
  expect(readdirSync(folder).filter((name) => name.startsWith("before-restore"))).toEqual([]);

  // A process that ended there leaves the second name, which is taken away by the next restore.
  linkSync(file, join(folder, "before-restore-cut-off.sqlite"));
  cut.isOff = false;
  const { before } = await restore(backup, folder, 6_000);
  expect(boardsIn(file)).toEqual([first]);
  expect(statSync(file).mode & 0o777).toBe(0o600);
  expect(boardsIn(before ?? "")).toEqual(both);
  expect(readdirSync(folder).filter((name) => /restoring|cut-off/.test(name))).toEqual([]);
});
