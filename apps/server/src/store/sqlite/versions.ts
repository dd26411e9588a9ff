/** How often a board's people or takes changed, in SQLite. */
import type { BoardId } from "@halflap/wire/api";
import type { Database } from "better-sqlite3";

/** Raises a board's count inside a transaction of the caller's; nothing when the board is gone. */
export function versionRaiser(db: Database): (board: string) => void {
  const raise = db.prepare("UPDATE boards SET people_version = people_version + 1 WHERE id = ?");
  return (board) => void raise.run(board);
}

/** Reads the counts of boards, in their order; 0 for one that is gone. */
export function versionReader(db: Database): (boards: readonly BoardId[]) => readonly number[] {
  const all = db.prepare<[string], { version: number }>(
    `SELECT ifnull(people_version, 0) AS version
     FROM json_each(?) LEFT JOIN boards ON boards.id = value ORDER BY key`,
  );
  return (boards) => all.all(JSON.stringify(boards)).map(({ version }) => version);
}
