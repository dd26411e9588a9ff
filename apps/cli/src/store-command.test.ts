/** Commands on a store that the machine lets down: said in words, with nothing half left. */
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
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

let folder: string;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-command-"));
  await openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => 1).close();
  disk.isFull = false;
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
