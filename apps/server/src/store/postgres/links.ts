/** Links in PostgreSQL: made, listed, revoked, and redeemed in one transaction. */
import type { BoardId } from "@halflap/wire/api";
import { linksPerBoardMax, selfLinksPerMemberMax } from "@halflap/wire/limits";
import { foundOf, type LinkRow, linkOf } from "../link-rows.ts";
import { type MemberRow, meOf } from "../member-rows.ts";
import type { Added, People, Redeem, Redeemed, StoredLink } from "../people-port.ts";
import { type FoundPeople, type Redemption, redemption, refused } from "../redemption.ts";
import { decodeBoardId, type SecretHash } from "../secret.ts";
import { changeBoard, isOn } from "./boards.ts";
import type { Postgres, Query } from "./connect.ts";

type LinkMethods = Pick<People, "addLink" | "links" | "revokeLink" | "redeem">;

/** The part of the people port that is about links. */
export function postgresLinks(db: Postgres): LinkMethods {
  return {
    addLink: (board, secret, link) => db.write((query) => addLink(query, board, secret, link)),
    async links(board) {
      const text = "SELECT * FROM links WHERE board = $1 ORDER BY made_at";
      return (await db.ask<LinkRow>(text, [board])).flatMap(linkOf);
    },
    revokeLink: (board, link) =>
      db.write(async (query) => {
        await changeBoard(query, board);
        const text = "UPDATE links SET revoked = true WHERE board = $1 AND id = $2 RETURNING id";
        return (await query(text, [board, link])).length > 0;
      }),
    redeem: (wanted) => db.write((query) => redeem(query, wanted)),
  };
}

async function addLink(
  query: Query,
  board: BoardId,
  secret: SecretHash,
  link: StoredLink,
): Promise<Added> {
  if (!(await changeBoard(query, board))) return "gone";
  const isFull = async () => {
    const text = "SELECT count(*) AS n FROM links WHERE board = $1 AND role <> 'self'";
    return ((await query<{ n: number }>(text, [board]))[0]?.n ?? 0) >= linksPerBoardMax;
  };
  const { id, role, member, madeAt, expiresAt, usesLeft } = link;
  if (member !== undefined && !(await isOn(query, board, member))) return "gone";
  if (role === "self") await forgetOwn(query, board, link);
  else if (await isFull()) {
    // A dead link is of no use to anybody; the oldest make room.
    await query(
      "DELETE FROM links WHERE board = $1 AND (revoked OR uses_left = 0 OR expires_at <= $2)",
      [board, madeAt],
    );
    if (await isFull()) return "too-many";
  }
  await query(
    `INSERT INTO links (id, hash, board, role, member, made_at, expires_at, uses_left)
     VALUES ($1, $2, $3, $4, $5, $6, $7, $8)`,
    [id, secret, board, role, member ?? null, madeAt, expiresAt, usesLeft],
  );
  return "added";
}

/** Those that still hold stay before dead ones, and the newest before older ones. */
async function forgetOwn(query: Query, board: BoardId, { member, madeAt }: StoredLink) {
  await query(
    `DELETE FROM links WHERE id IN
     (SELECT id FROM links WHERE board = $1 AND member = $2
      ORDER BY (revoked OR uses_left = 0 OR expires_at <= $3), made_at DESC OFFSET $4)`,
    [board, member ?? null, madeAt, selfLinksPerMemberMax - 1],
  );
}

/** The link names the board, the board is held, and only then is the link believed. */
async function redeem(query: Query, wanted: Redeem): Promise<Redeemed> {
  const find = async () =>
    (await query<LinkRow>("SELECT * FROM links WHERE hash = $1", [wanted.link]))[0];
  const board = decodeBoardId((await find())?.board);
  if (board === undefined) return refused("unknown");
  await query("SELECT 1 FROM boards WHERE id = $1 FOR NO KEY UPDATE", [board]);
  const row = await find();
  if (row === undefined) return refused("unknown");
  const redeemed = redemption(foundOf(row), await peopleOf(query, row, wanted), wanted);
  if (redeemed.kind === "refused") return redeemed;
  if (redeemed.write !== "nothing") {
    await writeRedemption(query, board, redeemed, wanted);
    await query("UPDATE links SET uses_left = uses_left - 1 WHERE id = $1", [row.id]);
    await changeBoard(query, board);
  }
  return { kind: "joined", board, me: redeemed.me };
}

async function peopleOf(query: Query, link: LinkRow, { session }: Redeem): Promise<FoundPeople> {
  const [current] = await query<MemberRow>(
    `SELECT m.id, m.name, m.role
     FROM sessions s JOIN members m ON m.board = s.board AND m.id = s.member
     WHERE s.hash = $1 AND s.board = $2`,
    [session, link.board],
  );
  const all = await query<MemberRow>("SELECT id, name, role FROM members WHERE board = $1", [
    link.board,
  ]);
  const self = all.find(({ id }) => id === link.member);
  return {
    current: current === undefined ? undefined : meOf(current),
    self: self === undefined ? undefined : meOf(self),
    members: all.length,
  };
}

async function writeRedemption(
  query: Query,
  board: BoardId,
  { me, write }: Extract<Redemption, { kind: "joined" }>,
  { session }: Redeem,
): Promise<void> {
  if (write === "role") {
    const text = "UPDATE members SET role = $3 WHERE board = $1 AND id = $2";
    await query(text, [board, me.id, me.role]);
    return;
  }
  if (write === "newcomer") {
    const text = "INSERT INTO members (board, id, name, role) VALUES ($1, $2, $3, $4)";
    await query(text, [board, me.id, me.name, me.role]);
  }
  await query(
    `INSERT INTO sessions (hash, board, member) VALUES ($1, $2, $3)
     ON CONFLICT (hash, board) DO UPDATE SET member = excluded.member`,
    [session, board, me.id],
  );
}
