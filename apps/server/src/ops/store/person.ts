/** Who a member is on other boards: the same browser sessions make somebody a member of several. */
import type { Database } from "better-sqlite3";
import { CantDo } from "./place.ts";

export type Membership = {
  readonly board: string;
  readonly member: string;
  readonly name: string;
  readonly role: "leader" | "player" | "listener";
};

/**
 * All memberships of the person behind a member id, that one first: whoever shares a session with
 * it, and so on. Throws CantDo when nobody has the id.
 */
export function membershipsOf(db: Database, member: string): readonly Membership[] {
  const byId = db.prepare<[string], Membership>(
    "SELECT board, id AS member, name, role FROM members WHERE id = ?",
  );
  const beside = db.prepare<[string, string], Membership>(
    `SELECT DISTINCT m.board, m.id AS member, m.name, m.role
     FROM sessions mine JOIN sessions theirs ON theirs.hash = mine.hash
     JOIN members m ON m.board = theirs.board AND m.id = theirs.member
     WHERE mine.board = ? AND mine.member = ? ORDER BY m.board`,
  );
  const found = new Map<string, Membership>();
  const look = byId.all(member);
  for (let one = look.shift(); one !== undefined; one = look.shift()) {
    const name = `${one.board}/${one.member}`;
    if (found.has(name)) continue;
    found.set(name, one);
    look.push(...beside.all(one.board, one.member));
  }
  if (found.size === 0) throw new CantDo(`There is no member "${member}" in this store.`);
  return [...found.values()];
}
