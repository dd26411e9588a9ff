/** Members, their sessions and their lanes in PostgreSQL. */
import type { LaneId, MemberId, Role } from "@halflap/board/board";
import { memberId } from "@halflap/board/talk";
import type { BoardId } from "@halflap/wire/api";
import { type MemberRow, meOf } from "../member-rows.ts";
import type { Claimed, People, Standing } from "../people-port.ts";
import { decodeBoardId } from "../secret.ts";
import { changeBoard, isOn } from "./boards.ts";
import type { Postgres, Query } from "./connect.ts";
import { isAgainst } from "./faults.ts";
import { takesOf } from "./takes.ts";

type Readers = Pick<People, "memberships" | "memberOf" | "standing">;
type Writers = Pick<People, "rename" | "removeMember" | "handLeader" | "claim" | "moveLane">;

/** The part of the people port that is about members and lanes. */
export function postgresMembers(db: Postgres): Readers & Writers {
  return { ...readers(db), ...writers(db) };
}

function readers(db: Postgres): Readers {
  const joined = "FROM sessions s JOIN members m ON m.board = s.board AND m.id = s.member";
  return {
    async memberships(session) {
      const text = `SELECT s.board, m.id, m.name, m.role ${joined} WHERE s.hash = $1`;
      return (await db.ask<MemberRow & { board: string }>(text, [session])).flatMap((row) => {
        const board = decodeBoardId(row.board);
        return board === undefined ? [] : [{ board, me: meOf(row) }];
      });
    },
    async memberOf(session, board) {
      const text = `SELECT m.id, m.name, m.role ${joined} WHERE s.hash = $1 AND s.board = $2`;
      const [row] = await db.ask<MemberRow>(text, [session, board]);
      return row === undefined ? undefined : meOf(row);
    },
    standing: (board) => db.read((query) => standing(query, board)),
  };
}

async function standing(query: Query, board: BoardId): Promise<Standing | undefined> {
  const there = await query("SELECT 1 FROM boards WHERE id = $1", [board]);
  if (there.length === 0) return undefined;
  const members = await query<MemberRow>(
    `SELECT id, name, role FROM members WHERE board = $1
     ORDER BY CASE role WHEN 'leader' THEN 0 WHEN 'player' THEN 1 ELSE 2 END, id COLLATE "C"`,
    [board],
  );
  const owned = await query<{ lane: string; owner: string }>(
    "SELECT lane, owner FROM lanes WHERE board = $1 AND owner IS NOT NULL",
    [board],
  );
  const ownerOf = new Map(owned.map(({ lane, owner }) => [lane, memberId(owner)]));
  return {
    members: members.map(meOf),
    owners: { upper: ownerOf.get("upper"), lower: ownerOf.get("lower") },
    takes: await takesOf(query, board),
  };
}

function writers(db: Postgres): Writers {
  const change = <T>(board: BoardId, work: (query: Query) => Promise<T>) =>
    db.write(async (query) => {
      await changeBoard(query, board);
      return work(query);
    });
  return {
    rename: (board, member, name) =>
      change(board, async (query) => {
        const text = "UPDATE members SET name = $3 WHERE board = $1 AND id = $2";
        await query(text, [board, member, name]);
      }),
    removeMember: (board, member) => change(board, (query) => remove(query, board, member)),
    handLeader: (board, from, to) => change(board, (query) => handOn(query, board, from, to)),
    async claim(board, lane, member) {
      const text = `UPDATE lanes SET owner = $3 WHERE board = $1 AND lane = $2
                    AND (owner IS NULL OR owner = $3) RETURNING lane`;
      const take = async (query: Query): Promise<Claimed> => {
        if (!(await isOn(query, board, member))) return "gone";
        return (await query(text, [board, lane, member])).length > 0 ? "claimed" : "taken";
      };
      return once(() => change(board, take));
    },
    moveLane: (board, lane, from, to) =>
      once(() => change(board, (query) => move(query, { board, lane, from, to }))),
  };
}

async function remove(query: Query, board: BoardId, member: MemberId): Promise<boolean> {
  await query("UPDATE lanes SET owner = NULL WHERE board = $1 AND owner = $2", [board, member]);
  const text = `DELETE FROM members WHERE board = $1 AND id = $2 AND role <> 'leader'
                RETURNING id`;
  return (await query(text, [board, member])).length > 0;
}

async function handOn(query: Query, board: BoardId, from: MemberId, to: MemberId) {
  const found = await query<{ id: string; role: Role }>(
    "SELECT id, role FROM members WHERE board = $1 AND id = ANY($2)",
    [board, [from, to]],
  );
  const roleOf = (id: MemberId) => found.find((row) => row.id === id)?.role;
  if (roleOf(from) !== "leader" || roleOf(to) !== "player") return false;
  const text = "UPDATE members SET role = $3 WHERE board = $1 AND id = $2";
  await query(text, [board, from, "player"]);
  await query(text, [board, to, "leader"]);
  return true;
}

type Move = {
  readonly board: BoardId;
  readonly lane: LaneId;
  readonly from: MemberId | undefined;
  readonly to: MemberId | undefined;
};

async function move(query: Query, { board, lane, from, to }: Move) {
  if (to !== undefined) {
    const text = "SELECT 1 FROM members WHERE board = $1 AND id = $2 AND role <> 'listener'";
    if ((await query(text, [board, to])).length === 0) return "may-not-play";
  }
  const moved = await query(
    `UPDATE lanes SET owner = $4 WHERE board = $1 AND lane = $2
     AND owner IS NOT DISTINCT FROM $3 RETURNING lane`,
    [board, lane, from ?? null, to ?? null],
  );
  return moved.length > 0 ? "moved" : "changed-meanwhile";
}

/** The index that allows one lane a member speaks as a uniqueness fault. */
async function once<T>(write: () => Promise<T>): Promise<T | "has-another"> {
  try {
    return await write();
  } catch (fault) {
    if (isAgainst(fault, "one_lane_each")) return "has-another";
    throw fault;
  }
}
