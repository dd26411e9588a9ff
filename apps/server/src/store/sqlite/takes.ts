/** Takes in SQLite: a row each, and beside it the parts of its sound. */

import type { TakeCard } from "@halflap/wire/api";
import type { Database } from "better-sqlite3";
import {
  cardOf,
  type HeldTakes,
  isTooMuch,
  type TakeRow,
  takeColumns,
  takeValues,
} from "../take-rows.ts";
import type { NewTake, Takes } from "../takes-port.ts";
import { writing } from "./open.ts";
import { partsReader, partsWriter } from "./take-parts.ts";
import { versionRaiser } from "./versions.ts";

/** The takes port over an open file. */
export function sqliteTakes(db: Database): Takes {
  const keep = db.transaction(keeper(db));
  const list = takeLister(db);
  const one = db.prepare<[string, string], TakeRow>(
    `SELECT ${takeColumns} FROM takes WHERE board = ? AND id = ?`,
  );
  const sound = partsReader(db);
  const drop = db.prepare("DELETE FROM takes WHERE board = ? AND id = ?");
  const raise = versionRaiser(db);
  const remove = db.transaction((board: string, id: string) => {
    raise(board);
    return drop.run(board, id).changes > 0;
  });
  return {
    keep: async (take) => writing(db, () => keep.immediate(take)),
    list: async (board) => list(board),
    async card(board, id) {
      const row = one.get(board, id);
      return row === undefined ? undefined : cardOf(row);
    },
    read: async (board, id, range) =>
      one.get(board, id) === undefined ? undefined : sound(id, range),
    playerOf: async (board, id) => one.get(board, id)?.member,
    remove: async (board, id) => writing(db, () => remove.immediate(board, id)),
  };
}

/** Reads a board's takes without their sound, oldest first. */
export function takeLister(db: Database): (board: string) => readonly TakeCard[] {
  const all = db.prepare<[string], TakeRow>(
    `SELECT ${takeColumns} FROM takes WHERE board = ? ORDER BY at, id`,
  );
  return (board) => all.all(board).flatMap((row) => cardOf(row) ?? []);
}

function keeper(db: Database): (take: NewTake) => "kept" | "full" | "gone" {
  const isOn = db.prepare<[string, string], object>(
    "SELECT 1 FROM members WHERE board = ? AND id = ?",
  );
  const held = db.prepare<[string], HeldTakes>(
    "SELECT count(*) AS count, ifnull(sum(size), 0) AS bytes FROM takes WHERE board = ?",
  );
  const insert = db.prepare(
    `INSERT INTO takes (board, ${takeColumns}) VALUES (?, ?, ?, ?, ?, ?, ?)`,
  );
  const write = partsWriter(db);
  const raise = versionRaiser(db);
  return ({ board: id, card, sound }) => {
    if (isOn.get(id, card.from) === undefined) return "gone";
    if (isTooMuch(held.get(id) ?? { count: 0, bytes: 0 }, sound.length)) return "full";
    insert.run(id, ...takeValues(card, sound.length));
    write(card.id, sound);
    raise(id);
    return "kept";
  };
}
