/** Boards, members and sessions in SQLite. */

import { laneIds, type Role } from "@halflap/board/board";
import { documentNames } from "@halflap/board/documents";
import { memberId } from "@halflap/board/talk";
import { boardsPerServerMax } from "@halflap/wire/limits";
import type { Database } from "better-sqlite3";
import { type MemberRow, meOf } from "../member-rows.ts";
import type { NewBoard, People } from "../people-port.ts";
import { decodeBoardId } from "../secret.ts";
import { bytesByDocument } from "../stored-bytes.ts";
import { writing } from "./open.ts";
import { rowWriter } from "./rows.ts";
import { takeLister } from "./takes.ts";
import { versionRaiser, versionReader } from "./versions.ts";

type MemberMethods = Pick<
  People,
  | "makeBoard"
  | "removeBoard"
  | "memberships"
  | "memberOf"
  | "standing"
  | "epoch"
  | "documentBytes"
  | "peopleVersion"
  | "rename"
  | "removeMember"
  | "handLeader"
>;

/** The part of the people port that is about boards and who is on them. */
export function sqliteMembers(db: Database): MemberMethods {
  return { ...readers(db), ...writers(db) };
}

function readers(
  db: Database,
): Pick<
  MemberMethods,
  "memberships" | "memberOf" | "standing" | "epoch" | "documentBytes" | "peopleVersion"
> {
  const joined = "FROM sessions s JOIN members m ON m.board = s.board AND m.id = s.member";
  const all = db.prepare<[Buffer], MemberRow & { board: string }>(
    `SELECT s.board, m.id, m.name, m.role ${joined} WHERE s.hash = ?`,
  );
  const one = db.prepare<[Buffer, string], MemberRow>(
    `SELECT m.id, m.name, m.role ${joined} WHERE s.hash = ? AND s.board = ?`,
  );
  const members = db.prepare<[string], MemberRow>(
    `SELECT id, name, role FROM members WHERE board = ?
     ORDER BY CASE role WHEN 'leader' THEN 0 WHEN 'player' THEN 1 ELSE 2 END, id`,
  );
  const owners = db.prepare<[string], { lane: string; owner: string }>(
    "SELECT lane, owner FROM lanes WHERE board = ? AND owner IS NOT NULL",
  );
  const takes = takeLister(db);
  const versions = versionReader(db);
  const bytes = db.prepare<[string], { name: string; bytes: number }>(
    `SELECT name, sum(length(data)) AS bytes
     FROM documents JOIN updates ON updates.document = documents.id
     WHERE board = ? GROUP BY name`,
  );
  const epoch = db.prepare<[string], { epoch: number }>("SELECT epoch FROM boards WHERE id = ?");
  return {
    memberships: async (session) =>
      all.all(session).flatMap((row) => {
        const board = decodeBoardId(row.board);
        return board === undefined ? [] : [{ board, me: meOf(row) }];
      }),
    async memberOf(session, board) {
      const row = one.get(session, board);
      return row === undefined ? undefined : meOf(row);
    },
    async standing(board) {
      if (epoch.get(board) === undefined) return undefined;
      const owned = new Map(owners.all(board).map(({ lane, owner }) => [lane, memberId(owner)]));
      return {
        members: members.all(board).map(meOf),
        owners: { upper: owned.get("upper"), lower: owned.get("lower") },
        takes: takes(board),
      };
    },
    epoch: async (board) => epoch.get(board)?.epoch,
    documentBytes: async (board) => bytesByDocument(bytes.all(board)),
    peopleVersion: async (boards) => versions(boards),
  };
}

function writers(
  db: Database,
): Pick<MemberMethods, "makeBoard" | "removeBoard" | "rename" | "removeMember" | "handLeader"> {
  const raise = versionRaiser(db);
  const makeBoard = db.transaction(boardMaker(db));
  const handLeader = db.transaction(leaderHander(db));
  const removeMember = db.transaction((board: string, member: string) => {
    db.prepare("UPDATE lanes SET owner = NULL WHERE board = ? AND owner = ?").run(board, member);
    const removed = db
      .prepare("DELETE FROM members WHERE board = ? AND id = ? AND role <> 'leader'")
      .run(board, member);
    raise(board);
    return removed.changes > 0;
  });
  const rename = db.transaction((board: string, member: string, name: string) => {
    db.prepare("UPDATE members SET name = ? WHERE board = ? AND id = ?").run(name, board, member);
    raise(board);
  });
  return {
    makeBoard: async (board) => writing(db, () => makeBoard.immediate(board)),
    async removeBoard(board) {
      writing(db, () => db.prepare("DELETE FROM boards WHERE id = ?").run(board));
    },
    rename: async (board, member, name) => writing(db, () => rename.immediate(board, member, name)),
    removeMember: async (board, member) => writing(db, () => removeMember.immediate(board, member)),
    handLeader: async (board, from, to) => writing(db, () => handLeader.immediate(board, from, to)),
  };
}

function boardMaker(db: Database): (board: NewBoard) => "made" | "full" {
  const writeRows = rowWriter(db);
  const kept = db.prepare<[], { n: number }>("SELECT count(*) AS n FROM boards");
  return ({ id, leader, session, at, rows, isTrial = false }) => {
    if (!isTrial && (kept.get()?.n ?? 0) >= boardsPerServerMax) return "full";
    db.prepare("INSERT INTO boards (id, made_at) VALUES (?, ?)").run(id, at);
    for (const name of documentNames) {
      db.prepare("INSERT INTO documents (board, name) VALUES (?, ?)").run(id, name);
    }
    for (const lane of laneIds) {
      db.prepare("INSERT INTO lanes (board, lane) VALUES (?, ?)").run(id, lane);
    }
    db.prepare("INSERT INTO members VALUES (?, ?, ?, ?)").run(
      id,
      leader.id,
      leader.name,
      leader.role,
    );
    db.prepare("INSERT INTO sessions VALUES (?, ?, ?)").run(session, id, leader.id);
    writeRows(rows, at);
    return "made";
  };
}

function leaderHander(db: Database): (board: string, from: string, to: string) => boolean {
  const roleOf = db.prepare<[string, string], { role: Role }>(
    "SELECT role FROM members WHERE board = ? AND id = ?",
  );
  const setRole = db.prepare("UPDATE members SET role = ? WHERE board = ? AND id = ?");
  const raise = versionRaiser(db);
  return (board, from, to) => {
    if (roleOf.get(board, from)?.role !== "leader") return false;
    if (roleOf.get(board, to)?.role !== "player") return false;
    setRole.run("player", board, from);
    setRole.run("leader", board, to);
    raise(board);
    return true;
  };
}
