/** Who a member is on other boards: the same browser sessions make somebody a member of several. */
import { CantDo } from "./place.ts";
import type { Ask } from "./records.ts";

export type Membership = {
  readonly board: string;
  readonly member: string;
  readonly name: string;
  readonly role: "leader" | "player" | "listener";
};

/**
 * All memberships of the person behind a member id, that one first: whoever shares a session with
 * it, and so on. Rejects with CantDo when nobody has the id.
 */
export async function membershipsOf(ask: Ask, member: string): Promise<readonly Membership[]> {
  const beside = ({ board, member }: Membership) =>
    ask<Membership>(
      `SELECT DISTINCT m.board, m.id AS member, m.name, m.role
       FROM sessions mine JOIN sessions theirs ON theirs.hash = mine.hash
       JOIN members m ON m.board = theirs.board AND m.id = theirs.member
       WHERE mine.board = $1 AND mine.member = $2 ORDER BY m.board`,
      [board, member],
    );
  const found = new Map<string, Membership>();
  const look = await ask<Membership>(
    "SELECT board, id AS member, name, role FROM members WHERE id = $1",
    [member],
  );
  for (let one = look.shift(); one !== undefined; one = look.shift()) {
    const name = `${one.board}/${one.member}`;
    if (found.has(name)) continue;
    found.set(name, one);
    look.push(...(await beside(one)));
  }
  if (found.size === 0) throw new CantDo(`There is no member "${member}" in this store.`);
  return [...found.values()];
}
