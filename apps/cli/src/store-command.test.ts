/** Commands on a store that the machine lets down: said in words, with nothing half left. */
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { hashOf, makeBoardId, makeMemberId, makeSecret, makeTakeId } from "@halflap/server/secret";
import { openStore, storeFile } from "@halflap/server/sqlite";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { StoreCommand } from "./command-line.ts";
import { runStoreCommand } from "./store-command.ts";

const disk = vi.hoisted(() => ({ isFull: false }));

vi.mock(import("node:fs"), async (original) => {
  const fs = await original();
  const fsyncSync: typeof fs.fsyncSync = (handle) => {
    if (!disk.isFull) return fs.fsyncSync(handle);
    throw Object.assign(new Error("ENOSPC: no space left on device"), { code: "ENOSPC" });
  };
  return { ...fs, fsyncSync };
});

/** What happens between the report and the reading of its takes. */
const meanwhile = vi.hoisted(() => ({ act: async () => {} }));

vi.mock(import("@halflap/server/member-report"), async (original) => {
  const report = await original();
  const memberReport: typeof report.memberReport = async (...asked) => {
    const told = await report.memberReport(...asked);
    await meanwhile.act();
    return told;
  };
  return { ...report, memberReport };
});

let folder: string;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-command-"));
  await openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => 1).close();
  disk.isFull = false;
  meanwhile.act = async () => {};
});

afterEach(() => rmSync(folder, { recursive: true }));

const run = (command: StoreCommand) => runStoreCommand(command, 1, {});

test("a backup into a folder that is not there says so, and ends with 2", async () => {
  const file = join(folder, "nowhere", "backup.sqlite");
  const { exit, err } = await run({ kind: "backup", json: false, store: folder, file });
  expect(exit).toBe(2);
  expect(err).toMatch(/^That can't be done: .*nowhere.*Look whether the folder is there/);
});

test("a backup and a restore without room say so, and leave nothing half done", async () => {
  const file = join(folder, "backup.sqlite");
  expect((await run({ kind: "backup", json: false, store: folder, file })).exit).toBe(0);
  disk.isFull = true;
  const commands = [
    { kind: "backup", json: false, store: folder, file: `${file}2` },
    { kind: "restore", json: false, store: folder, file },
  ] as const;
  for (const command of commands) {
    const { exit, err } = await run(command);
    expect([exit, err]).toEqual([2, expect.stringContaining("Make room on the disk")]);
  }
  const left = readdirSync(folder).filter((name) => !/-(wal|shm)$/.test(name));
  expect(left.sort()).toEqual(["backup.sqlite", storeFile]);
});

test("a file in the place of a folder is not replaced", async () => {
  const file = join(folder, "backup.sqlite");
  await run({ kind: "backup", json: false, store: folder, file });
  const { exit, err } = await run({ kind: "restore", json: false, store: file, file });
  expect([exit, err]).toEqual([2, expect.stringContaining("Name another place")]);
});

test("a take that is removed meanwhile is named, and the rest of a report is there", async () => {
  const path = join(folder, storeFile);
  const store = openStore({ path, pagesMax: undefined }, () => 1);
  const [board, id, sound] = [makeBoardId(), makeMemberId(), Buffer.alloc(64)];
  const leader = { id, name: "Ada", role: "leader" } as const;
  await store.people.makeBoard({
    id: board,
    leader,
    session: hashOf(makeSecret()),
    at: 1,
    rows: [],
  });
  const takes = [makeTakeId(), makeTakeId()] as const;
  for (const take of takes) {
    const said = { name: "Riff", bars: [], offsetMs: 0, lengthMs: 10, tempo: 100 };
    const card = { id: take, from: id, at: 1, ...said, type: "audio/wav", size: 64 } as const;
    await store.takes.keep({ board, card, sound });
  }
  await store.close();
  meanwhile.act = async () => {
    const beside = openStore({ path, pagesMax: undefined }, () => 1);
    await beside.takes.remove(board, takes[0]);
    await beside.close();
  };
  const folderOfTakes = join(folder, "takes");
  const asked = { kind: "export-member", json: true, store: folder, member: id } as const;
  const { exit, out, err } = await run({ ...asked, takes: folderOfTakes });
  expect([exit, err]).toEqual([0, expect.stringContaining(`take ${takes[0]} was removed`)]);
  expect(out).toContain(takes[1]);
  expect(readdirSync(folderOfTakes)).toEqual([`${takes[1]}.wav`]);
});
