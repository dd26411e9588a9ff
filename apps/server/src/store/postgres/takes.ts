/** Takes in PostgreSQL: a row each; a list never reads their sound. */
import type { BoardId, TakeCard } from "@halflap/wire/api";
import {
  cardOf,
  type HeldTakes,
  isTooMuch,
  type TakeRow,
  takeColumns,
  takeValues,
} from "../take-rows.ts";
import type { NewTake, Takes } from "../takes-port.ts";
import { changeBoard, isOn } from "./boards.ts";
import type { Postgres, Query } from "./connect.ts";

/** The takes port over a database. */
export function postgresTakes(db: Postgres): Takes {
  return {
    keep: (take) => db.write((query) => keep(query, take)),
    list: (board) => takesOf(db.ask, board),
    async card(board, id) {
      const text = `SELECT ${takeColumns} FROM takes WHERE board = $1 AND id = $2`;
      const [row] = await db.ask<TakeRow>(text, [board, id]);
      return row === undefined ? undefined : cardOf(row);
    },
    async read(board, id, { start, length }) {
      const text = `SELECT substring(sound FROM $3::int FOR $4::int) AS part
                    FROM takes WHERE board = $1 AND id = $2`;
      const [row] = await db.ask<{ part: Buffer }>(text, [board, id, start + 1, length]);
      return row === undefined ? undefined : new Uint8Array(row.part);
    },
    async playerOf(board, id) {
      const text = "SELECT member FROM takes WHERE board = $1 AND id = $2";
      return (await db.ask<{ member: string }>(text, [board, id]))[0]?.member;
    },
    remove: (board, id) =>
      db.write(async (query) => {
        await changeBoard(query, board);
        const text = "DELETE FROM takes WHERE board = $1 AND id = $2 RETURNING id";
        return (await query(text, [board, id])).length > 0;
      }),
  };
}

/** A board's takes without their sound, oldest first. */
export async function takesOf(query: Query, board: BoardId): Promise<readonly TakeCard[]> {
  const text = `SELECT ${takeColumns} FROM takes WHERE board = $1 ORDER BY at, id COLLATE "C"`;
  return (await query<TakeRow>(text, [board])).flatMap((row) => cardOf(row) ?? []);
}

/**
 * Holds the board, so that two takes that come at once don't both take the last place, and nobody
 * is removed meanwhile.
 */
async function keep(
  query: Query,
  { board, card, sound }: NewTake,
): Promise<"kept" | "full" | "gone"> {
  if (!(await changeBoard(query, board))) return "gone";
  if (!(await isOn(query, board, card.from))) return "gone";
  const [held = { count: 0, bytes: 0 }] = await query<HeldTakes>(
    `SELECT count(*) AS count, coalesce(sum(size), 0)::bigint AS bytes
     FROM takes WHERE board = $1`,
    [board],
  );
  if (isTooMuch(held, sound.length)) return "full";
  await query(
    `INSERT INTO takes (board, ${takeColumns}, sound) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)`,
    [board, ...takeValues(card, sound.length), sound],
  );
  return "kept";
}
