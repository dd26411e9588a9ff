/** Links in SQLite: made, listed, revoked, and redeemed in one transaction that counts the use. */

import { linksPerBoardMax, selfLinksPerMemberMax } from "@halflap/wire/limits";
import type { Database } from "better-sqlite3";
import { foundOf, type LinkRow, linkOf } from "../link-rows.ts";
import { type MemberRow, meOf } from "../member-rows.ts";
import type { Added, People, Redeem, Redeemed, StoredLink } from "../people-port.ts";
import { type FoundPeople, type Redemption, redemption, refused } from "../redemption.ts";
import { decodeBoardId } from "../secret.ts";
import { writing } from "./open.ts";
import { versionRaiser } from "./versions.ts";

type LinkMethods = Pick<People, "addLink" | "links" | "revokeLink" | "redeem">;

/** The part of the people port that is about links. */
export function sqliteLinks(db: Database): LinkMethods {
  const add = db.transaction(linkAdder(db));
  const redeem = db.transaction(redeeming(db));
  const list = db.prepare<[string], LinkRow>(
    "SELECT * FROM links WHERE board = ? ORDER BY made_at",
  );
  const setRevoked = db.prepare("UPDATE links SET revoked = 1 WHERE board = ? AND id = ?");
  const raise = versionRaiser(db);
  const revoke = db.transaction((board: string, link: string) => {
    raise(board);
    return setRevoked.run(board, link).changes > 0;
  });
  return {
    addLink: async (board, secret, link) => writing(db, () => add.immediate(board, secret, link)),
    links: async (board) => list.all(board).flatMap(linkOf),
    revokeLink: async (board, link) => writing(db, () => revoke.immediate(board, link)),
    redeem: async (wanted) => writing(db, () => redeem.immediate(wanted)),
  };
}

function linkAdder(db: Database) {
  const count = db.prepare<[string], { n: number }>(
    "SELECT count(*) AS n FROM links WHERE board = ? AND role <> 'self'",
  );
  // A dead link is of no use to anybody; the oldest make room.
  const forget = db.prepare(
    "DELETE FROM links WHERE board = ? AND (revoked = 1 OR uses_left = 0 OR expires_at <= ?)",
  );
  // Those that still hold stay before dead ones, and the newest before older ones.
  const forgetOwn = db.prepare(
    `DELETE FROM links WHERE id IN
     (SELECT id FROM links WHERE board = ? AND member = ?
      ORDER BY (revoked = 1 OR uses_left = 0 OR expires_at <= ?), made_at DESC LIMIT -1 OFFSET ?)`,
  );
  const insert = db.prepare(
    `INSERT INTO links (id, hash, board, role, member, made_at, expires_at, uses_left)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const owner = db.prepare<[string, string | null], object>(
    "SELECT 1 FROM members WHERE board = ? AND id = ifnull(?, id)", // a board is never without any
  );
  const raise = versionRaiser(db);
  return (board: string, secret: Buffer, link: StoredLink): Added => {
    const { id, role, member, madeAt, expiresAt, usesLeft } = link;
    if (owner.get(board, member ?? null) === undefined) return "gone";
    const isFull = () => (count.get(board)?.n ?? 0) >= linksPerBoardMax;
    if (role === "self") forgetOwn.run(board, member, madeAt, selfLinksPerMemberMax - 1);
    else if (isFull()) {
      forget.run(board, madeAt);
      if (isFull()) return "too-many";
    }
    insert.run(id, secret, board, role, member ?? null, madeAt, expiresAt, usesLeft);
    raise(board);
    return "added";
  };
}

function redeeming(db: Database): (wanted: Redeem) => Redeemed {
  const find = db.prepare<[Buffer], LinkRow>("SELECT * FROM links WHERE hash = ?");
  const spend = db.prepare("UPDATE links SET uses_left = uses_left - 1 WHERE id = ?");
  const people = peopleFinder(db);
  const write = redemptionWriter(db);
  const raise = versionRaiser(db);
  return (wanted) => {
    const row = find.get(wanted.link);
    const board = row === undefined ? undefined : decodeBoardId(row.board);
    if (row === undefined || board === undefined) return refused("unknown");
    const redeemed = redemption(foundOf(row), people(row, wanted), wanted);
    if (redeemed.kind === "refused") return redeemed;
    if (redeemed.write !== "nothing") {
      write(board, redeemed, wanted);
      spend.run(row.id);
      raise(board);
    }
    return { kind: "joined", board, me: redeemed.me };
  };
}

function peopleFinder(db: Database): (link: LinkRow, wanted: Redeem) => FoundPeople {
  const current = db.prepare<[Buffer, string], MemberRow>(
    `SELECT m.id, m.name, m.role
     FROM sessions s JOIN members m ON m.board = s.board AND m.id = s.member
     WHERE s.hash = ? AND s.board = ?`,
  );
  const member = db.prepare<[string, string | null], MemberRow>(
    "SELECT id, name, role FROM members WHERE board = ? AND id = ?",
  );
  const count = db.prepare<[string], { n: number }>(
    "SELECT count(*) AS n FROM members WHERE board = ?",
  );
  const me = (row: MemberRow | undefined) => (row === undefined ? undefined : meOf(row));
  return (link, { session }) => ({
    current: me(current.get(session, link.board)),
    self: me(member.get(link.board, link.member)),
    members: count.get(link.board)?.n ?? 0,
  });
}

function redemptionWriter(db: Database) {
  const addMember = db.prepare("INSERT INTO members (board, id, name, role) VALUES (?, ?, ?, ?)");
  const setRole = db.prepare("UPDATE members SET role = ? WHERE board = ? AND id = ?");
  const setSession = db.prepare(
    "INSERT OR REPLACE INTO sessions (hash, board, member) VALUES (?, ?, ?)",
  );
  return (board: string, { me, write }: Joined, { session }: Redeem): void => {
    if (write === "role") setRole.run(me.role, board, me.id);
    if (write === "newcomer") addMember.run(board, me.id, me.name, me.role);
    if (write !== "role") setSession.run(session, board, me.id);
  };
}

type Joined = Extract<Redemption, { kind: "joined" }>;
