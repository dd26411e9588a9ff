/** Takes in SQLite: a row each, its sound last in it, so that a list reads past none. */

import { takeId } from "@halflap/board/ids";
import { decodeTakeHead } from "@halflap/board/take";
import { memberId } from "@halflap/board/talk";
import { soundTypes, type TakeCard } from "@halflap/wire/api";
import { takeBytesPerBoardMax, takesPerBoardMax } from "@halflap/wire/limits";
import type { Database } from "better-sqlite3";
import type { NewTake, Takes } from "../takes-port.ts";
import { writing } from "./open.ts";
import { versionRaiser } from "./versions.ts";

type TakeRow = {
  readonly id: string;
  readonly member: string;
  readonly at: number;
  readonly head: string;
  readonly type: string;
  readonly size: number;
};

const columns = "id, member, at, head, type, size";

/** The takes port over an open file. */
export function sqliteTakes(db: Database): Takes {
  const keep = db.transaction(keeper(db));
  const list = takeLister(db);
  const one = db.prepare<[string, string], TakeRow>(
    `SELECT ${columns} FROM takes WHERE board = ? AND id = ?`,
  );
  const part = db.prepare<[number, number, string, string], { part: Buffer }>(
    "SELECT substr(sound, ?, ?) AS part FROM takes WHERE board = ? AND id = ?",
  );
  const drop = db.prepare("DELETE FROM takes WHERE board = ? AND id = ?");
  const raise = versionRaiser(db);
  const remove = db.transaction((board: string, id: string) => {
    raise(board);
    return drop.run(board, id).changes > 0;
  });
  return {
    keep: async (take) => writing(() => keep.immediate(take)),
    list: async (board) => list(board),
    async card(board, id) {
      const row = one.get(board, id);
      return row === undefined ? undefined : cardOf(row);
    },
    async read(board, id, { start, length }) {
      const row = part.get(start + 1, length, board, id);
      return row === undefined ? undefined : new Uint8Array(row.part);
    },
    remove: async (board, id) => writing(() => remove.immediate(board, id)),
  };
}

/** Reads a board's takes without their sound, oldest first. */
export function takeLister(db: Database): (board: string) => readonly TakeCard[] {
  const all = db.prepare<[string], TakeRow>(
    `SELECT ${columns} FROM takes WHERE board = ? ORDER BY at, id`,
  );
  return (board) => all.all(board).map(cardOf);
}

function keeper(db: Database): (take: NewTake) => "kept" | "full" | "gone" {
  const board = db.prepare<[string], object>("SELECT 1 FROM boards WHERE id = ?");
  const held = db.prepare<[string], { count: number; bytes: number }>(
    "SELECT count(*) AS count, ifnull(sum(size), 0) AS bytes FROM takes WHERE board = ?",
  );
  const insert = db.prepare(
    `INSERT INTO takes (board, ${columns}, sound) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const raise = versionRaiser(db);
  return ({ board: id, card, sound }) => {
    if (board.get(id) === undefined) return "gone";
    const { count, bytes } = held.get(id) ?? { count: 0, bytes: 0 };
    const isFull = count >= takesPerBoardMax || bytes + sound.length > takeBytesPerBoardMax;
    if (isFull) return "full";
    const { name, bars, offsetMs, lengthMs, tempo } = card;
    const head = JSON.stringify({ name, bars, offsetMs, lengthMs, tempo });
    insert.run(id, card.id, card.from, card.at, head, card.type, sound.length, sound);
    raise(id);
    return "kept";
  };
}

function cardOf({ id, member, at, head, type, size }: TakeRow): TakeCard {
  const read = decodeTakeHead(JSON.parse(head));
  const known = soundTypes.find((each) => each === type);
  if (!read.ok || known === undefined) throw new Error(`the stored take ${id} can't be read`);
  return { ...read.value, id: takeId(id), from: memberId(member), at, type: known, size };
}
