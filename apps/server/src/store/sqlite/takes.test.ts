/** Takes in the SQLite file: a slice of a recording costs what it is long. */
import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { decodeTakeHead } from "@halflap/board/take";
import type { TakeCard } from "@halflap/wire/api";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import { hashOf, makeBoardId, makeMemberId, makeSecret, makeTakeId } from "../secret.ts";
import { takeColumns, takeValues } from "../take-rows.ts";
import { bringUpToDate } from "./schema.ts";
import { openStore } from "./store.ts";

const pageBytes = 4096;
const head = decodeTakeHead({
  ...{ name: "Riff", bars: [{ bar: "solo~b1", length: 192 }] },
  ...{ offsetMs: 12.5, lengthMs: 4000, tempo: 104 },
});
if (!head.ok) throw new Error(head.error.words);
const card: TakeCard = {
  ...{ id: makeTakeId(), from: makeMemberId(), at: 1, ...head.value },
  ...{ type: "audio/webm", size: 1_000_000 },
};
const mark = "halfway through the recording";
const sound = Buffer.alloc(card.size);
for (let i = 0; i < sound.length; i += 4) sound.writeUInt32LE(i, i);
sound.write(mark, sound.length / 2);

let folder: string;
let path: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-takes-"));
  path = join(folder, "boards.sqlite");
});

afterEach(() => rmSync(folder, { recursive: true }));

const opened = () => openStore({ path, pagesMax: undefined }, () => 1);

test("damage in the middle of a recording keeps nobody from a slice of its beginning", async () => {
  const board = makeBoardId();
  const leader = { id: card.from, name: "Ada", role: "leader" } as const;
  const store = opened();
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  await store.takes.keep({ board, card, sound });
  await store.close();

  // Each page of a long value begins with the number of the one that goes on.
  const page = Math.floor(readFileSync(path).indexOf(mark) / pageBytes);
  const file = openSync(path, "r+");
  writeSync(file, Buffer.alloc(4), 0, 4, page * pageBytes);
  closeSync(file);

  const again = opened();
  const slice = (start: number) => again.takes.read(board, card.id, { start, length: 1000 });
  expect(Buffer.from((await slice(0)) ?? [])).toEqual(sound.subarray(0, 1000));
  await expect(slice(sound.length / 2)).rejects.toThrow("malformed");
  await again.close();
});

test.each([2, 3, 4])("takes of a file of schema %i keep their sound", async (version) => {
  const db = new Sqlite(path);
  bringUpToDate(db, version);
  const board = makeBoardId();
  db.prepare("INSERT INTO boards (id, made_at) VALUES (?, 1)").run(board);
  const columns = `board, ${takeColumns}, sound`;
  const row = [board, ...takeValues(card, sound.length), sound];
  db.prepare(`INSERT INTO takes (${columns}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`).run(...row);
  db.close();
  const store = opened();
  expect(await store.takes.list(board)).toEqual([card]);
  const whole = await store.takes.read(board, card.id, { start: 0, length: sound.length });
  expect(Buffer.compare(whole ?? Buffer.alloc(0), sound)).toBe(0);
  await store.close();
});
