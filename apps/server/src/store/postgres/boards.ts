/** Boards in PostgreSQL: made whole, removed whole, and locked by every write to their people. */
import { laneIds, type MemberId } from "@halflap/board/board";
import { documentNames } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import { boardsPerServerMax } from "@halflap/wire/limits";
import type { NewBoard, People } from "../people-port.ts";
import { bytesByDocument } from "../stored-bytes.ts";
import type { Postgres, Query } from "./connect.ts";
import { writeRows } from "./rows.ts";

type BoardMethods = Pick<
  People,
  "makeBoard" | "removeBoard" | "epoch" | "documentBytes" | "peopleVersion"
>;

/** The part of the people port that is about boards. */
export function postgresBoards(db: Postgres): BoardMethods {
  return {
    makeBoard: (board) => db.write((query) => makeBoard(query, board)),
    removeBoard: (board) => db.write((query) => removeBoard(query, board)),
    async epoch(board) {
      const text = "SELECT epoch FROM boards WHERE id = $1";
      return (await db.ask<{ epoch: number }>(text, [board]))[0]?.epoch;
    },
    async documentBytes(board) {
      const found = await db.ask<{ name: string; bytes: number }>(
        `SELECT name, coalesce(sum(octet_length(data)), 0)::bigint AS bytes
         FROM documents JOIN updates ON updates.document = documents.id
         WHERE board = $1 GROUP BY name`,
        [board],
      );
      return bytesByDocument(found);
    },
    async peopleVersion(boards) {
      const found = await db.ask<{ version: number }>(
        `SELECT coalesce(people_version, 0) AS version
         FROM unnest($1::text[]) WITH ORDINALITY AS asked (board, nth)
         LEFT JOIN boards ON boards.id = asked.board ORDER BY nth`,
        [boards],
      );
      return found.map(({ version }) => version);
    },
  };
}

/**
 * Counts a change to a board's people and holds the board until the transaction ends, so that of
 * two writers the second sees what the first wrote. False when the board is gone.
 */
export async function changeBoard(query: Query, board: BoardId): Promise<boolean> {
  const text = "UPDATE boards SET people_version = people_version + 1 WHERE id = $1 RETURNING id";
  return (await query(text, [board])).length > 0;
}

/** Whether somebody is a member, of a board that is held. */
export async function isOn(query: Query, board: BoardId, member: MemberId): Promise<boolean> {
  const text = "SELECT 1 FROM members WHERE board = $1 AND id = $2";
  return (await query(text, [board, member])).length > 0;
}

async function makeBoard(query: Query, board: NewBoard): Promise<"made" | "full"> {
  const { id, leader, session, at, rows, isTrial = false } = board;
  const [kept] = await query<{ n: number }>("SELECT count(*) AS n FROM boards");
  if (!isTrial && (kept?.n ?? 0) >= boardsPerServerMax) return "full";
  await query("INSERT INTO boards (id, made_at) VALUES ($1, $2)", [id, at]);
  await query("INSERT INTO documents (board, name) SELECT $1, unnest($2::text[])", [
    id,
    documentNames,
  ]);
  await query("INSERT INTO lanes (board, lane) SELECT $1, unnest($2::text[])", [id, laneIds]);
  await query("INSERT INTO members (board, id, name, role) VALUES ($1, $2, $3, $4)", [
    id,
    leader.id,
    leader.name,
    leader.role,
  ]);
  await query("INSERT INTO sessions (hash, board, member) VALUES ($1, $2, $3)", [
    session,
    id,
    leader.id,
  ]);
  await writeRows(query, rows, at);
  return "made";
}

/** Its documents are locked first, in the order in which a batch of rows locks them. */
async function removeBoard(query: Query, board: BoardId): Promise<void> {
  await changeBoard(query, board);
  await query("SELECT id FROM documents WHERE board = $1 ORDER BY id FOR UPDATE", [board]);
  await query("DELETE FROM boards WHERE id = $1", [board]);
}
