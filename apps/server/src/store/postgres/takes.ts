/** Takes in PostgreSQL: a row each; a list never reads their sound. */
import { takeId } from "@halflap/board/ids";
import { decodeTakeHead } from "@halflap/board/take";
import { memberId } from "@halflap/board/talk";
import { type BoardId, soundTypes, type TakeCard } from "@halflap/wire/api";
import { takeBytesPerBoardMax, takesPerBoardMax } from "@halflap/wire/limits";
import type { NewTake, Takes } from "../takes-port.ts";
import { changeBoard } from "./boards.ts";
import type { Postgres, Query } from "./connect.ts";

type TakeRow = {
  readonly id: string;
  readonly member: string;
  readonly at: number;
  readonly head: string;
  readonly type: string;
  readonly size: number;
};

const columns = "id, member, at, head, type, size";

/** The takes port over a database. */
export function postgresTakes(db: Postgres): Takes {
  return {
    keep: (take) => db.write((query) => keep(query, take)),
    list: (board) => takesOf(db.ask, board),
    async card(board, id) {
      const text = `SELECT ${columns} FROM takes WHERE board = $1 AND id = $2`;
      const [row] = await db.ask<TakeRow>(text, [board, id]);
      return row === undefined ? undefined : cardOf(row);
    },
    async read(board, id, { start, length }) {
      const text = `SELECT substring(sound FROM $3::int FOR $4::int) AS part
                    FROM takes WHERE board = $1 AND id = $2`;
      const [row] = await db.ask<{ part: Buffer }>(text, [board, id, start + 1, length]);
      return row === undefined ? undefined : new Uint8Array(row.part);
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
  const text = `SELECT ${columns} FROM takes WHERE board = $1 ORDER BY at, id COLLATE "C"`;
  return (await query<TakeRow>(text, [board])).map(cardOf);
}

/** Holds the board, so that two takes that come at once don't both take the last place. */
async function keep(
  query: Query,
  { board, card, sound }: NewTake,
): Promise<"kept" | "full" | "gone"> {
  if (!(await changeBoard(query, board))) return "gone";
  const [held = { count: 0, bytes: 0 }] = await query<{ count: number; bytes: number }>(
    `SELECT count(*) AS count, coalesce(sum(size), 0)::bigint AS bytes
     FROM takes WHERE board = $1`,
    [board],
  );
  const isFull = held.count >= takesPerBoardMax || held.bytes + sound.length > takeBytesPerBoardMax;
  if (isFull) return "full";
  const { name, bars, offsetMs, lengthMs, tempo } = card;
  const head = JSON.stringify({ name, bars, offsetMs, lengthMs, tempo });
  await query(
    `INSERT INTO takes (board, ${columns}, sound) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)`,
    [board, card.id, card.from, card.at, head, card.type, sound.length, sound],
  );
  return "kept";
}

function cardOf({ id, member, at, head, type, size }: TakeRow): TakeCard {
  const read = decodeTakeHead(JSON.parse(head));
  const known = soundTypes.find((each) => each === type);
  if (!read.ok || known === undefined) throw new Error(`the stored take ${id} can't be read`);
  return { ...read.value, id: takeId(id), from: memberId(member), at, type: known, size };
}
