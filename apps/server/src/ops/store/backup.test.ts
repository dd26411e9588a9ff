/** A backup while it is written: nobody else may read it, and it is in nobody's way. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { openStore, storeFile } from "../../store/sqlite/store.ts";
import { backUp } from "./backup.ts";

let folder: string;
let file: string;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-backup-"));
  file = join(folder, "backup.sqlite");
  await openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => 1).close();
});

afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

/** Who may do what with a file, and whether something is in it. */
function rightsOf(path: string): readonly [rights: string, isEmpty: boolean] {
  const { mode, size } = statSync(path);
  return [(mode & 0o777).toString(8), size === 0];
}

test("nobody else may read a backup, from before the first byte on", () => {
  const seen: unknown[] = [];
  const prepare = Sqlite.prototype.prepare;
  vi.spyOn(Sqlite.prototype, "prepare").mockImplementation(function (this: never, text: string) {
    const statement = prepare.call(this, text);
    if (!text.startsWith("VACUUM INTO")) return statement as never;
    const run = (part: string) => {
      seen.push(rightsOf(part));
      statement.run(part);
      seen.push(rightsOf(part));
    };
    return { run } as never;
  });
  const umask = process.umask(0o022);
  backUp(folder, file);
  process.umask(umask);
  expect(seen).toEqual([
    ["600", true],
    ["600", false],
  ]);
  expect(rightsOf(file)).toEqual(["600", false]);
});

test("what lies beside a backup stays, whatever its name, and nothing is left there", () => {
  const other = `${file}.part`;
  writeFileSync(other, "somebody's");
  backUp(folder, file);
  expect(readFileSync(other, "utf8")).toBe("somebody's");
  const left = readdirSync(folder).filter((name) => !/-(wal|shm)$/.test(name));
  expect(left.sort()).toEqual(["backup.sqlite", "backup.sqlite.part", storeFile].sort());
});
