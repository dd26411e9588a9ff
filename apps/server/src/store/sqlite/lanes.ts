/**
 * Lane ownership in SQLite: decided by single statements and one index, so that the first claim
 * wins.
 */
import Sqlite, { type Database } from "better-sqlite3";
import type { Claimed, People } from "../people-port.ts";
import { writing } from "./open.ts";
import { versionRaiser } from "./versions.ts";

/** The part of the people port that is about lanes. */
export function sqliteLanes(db: Database): Pick<People, "claim" | "moveLane"> {
  const take = db.prepare(
    "UPDATE lanes SET owner = ? WHERE board = ? AND lane = ? AND (owner IS NULL OR owner = ?)",
  );
  const move = db.prepare("UPDATE lanes SET owner = ? WHERE board = ? AND lane = ? AND owner IS ?");
  const plays = db.prepare<[string, string], { id: string }>(
    "SELECT id FROM members WHERE board = ? AND id = ? AND role <> 'listener'",
  );
  const isOn = db.prepare<[string, string], object>(
    "SELECT 1 FROM members WHERE board = ? AND id = ?",
  );
  const raise = versionRaiser(db);
  const claim = db.transaction((board: string, lane: string, member: string): Claimed => {
    if (isOn.get(board, member) === undefined) return "gone";
    raise(board);
    return take.run(member, board, lane, member).changes > 0 ? "claimed" : "taken";
  });
  const moveTo = db.transaction((board: string, lane: string, from?: string, to?: string) => {
    raise(board);
    return move.run(to ?? null, board, lane, from ?? null).changes > 0;
  });
  return {
    claim: async (board, lane, member) => once(db, () => claim.immediate(board, lane, member)),
    async moveLane(board, lane, from, to) {
      if (to !== undefined && plays.get(board, to) === undefined) return "may-not-play";
      const moved = once(db, () => moveTo.immediate(board, lane, from, to));
      if (moved === "has-another") return moved;
      return moved ? "moved" : "changed-meanwhile";
    },
  };
}

/** The index that allows one lane a member speaks as a uniqueness fault. */
function once<T>(db: Database, write: () => T): T | "has-another" {
  try {
    return writing(db, write);
  } catch (fault) {
    const isOther =
      fault instanceof Sqlite.SqliteError && fault.code === "SQLITE_CONSTRAINT_UNIQUE";
    if (isOther) return "has-another";
    throw fault;
  }
}
