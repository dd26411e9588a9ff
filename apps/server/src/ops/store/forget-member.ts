/**
 * Takes a person out of a store: their name, sessions, links, lanes and roles. What they played and
 * wrote is the band's and stays, under ids that say nothing.
 */

import { existsSync } from "node:fs";
import type { BoardId } from "@halflap/wire/api";
import type { Database } from "better-sqlite3";
import { decodeBoardId, makeMessageId } from "../../store/secret.ts";
import { bringUpToDate } from "../../store/sqlite/schema.ts";
import { storeOver } from "../../store/sqlite/store.ts";
import type { Store } from "../../store/store.ts";
import { talkUpdate } from "../../sync/board-desk.ts";
import { compactionOf } from "../../sync/compaction.ts";
import { DocumentBytes } from "../../sync/document-bytes.ts";
import { type Membership, membershipsOf } from "./person.ts";
import { CantDo, fileOf, openAlone } from "./place.ts";

export type Forgotten = {
  readonly boards: readonly {
    readonly board: string;
    /** Who leads it now, where the person did. */
    readonly leader: string | undefined;
    /** It had nobody else who could lead it, and is gone. */
    readonly isDeleted: boolean;
    /** Takes of theirs that stay. */
    readonly takes: number;
  }[];
};

/**
 * Forgets whoever has the id, on all boards, in a store that no server has open. A board that they
 * lead goes on to a player, one who owns a lane before others; where nobody else plays, the board
 * is deleted with them when `withBoards` says so. Throws CantDo otherwise, with nothing changed.
 */
export async function forgetMember(
  path: string,
  member: string,
  withBoards: boolean,
  now: number,
): Promise<Forgotten> {
  const file = fileOf(path);
  if (!existsSync(file)) throw new CantDo(`${file} is not there.`);
  const db = openAlone(file);
  try {
    bringUpToDate(db);
    db.pragma("foreign_keys = ON");
    const all = membershipsOf(db, member);
    const heirs = new Map(all.map((one) => [one, heirOf(db, one)]));
    const alone = all.filter((one) => one.role === "leader" && heirs.get(one) === undefined);
    if (alone.length > 0 && !withBoards) throw new CantDo(aloneWords(alone));
    const store = storeOver(db, () => now);
    const boards: Forgotten["boards"][number][] = [];
    // The one that was named last, so that the same command finds the rest after a crash.
    for (const one of [...all].reverse())
      boards.push(await forgetOn(db, store, one, heirs.get(one)));
    db.exec("VACUUM"); // what was deleted or renamed earlier may still stand in free pages
    return { boards };
  } finally {
    db.close();
  }
}

function aloneWords(alone: readonly Membership[]): string {
  const boards = alone.map(({ board }) => board).join(", ");
  return `Nobody else could lead ${boards}. With --with-boards they are deleted too.`;
}

/** Who leads a board after its leader: a player, before others one who owns a lane. */
function heirOf(db: Database, { board, member, role }: Membership): string | undefined {
  if (role !== "leader") return undefined;
  return db
    .prepare<[string, string], { id: string }>(
      `SELECT id FROM members m WHERE board = ? AND id <> ? AND role = 'player'
       ORDER BY EXISTS (SELECT 1 FROM lanes WHERE board = m.board AND owner = m.id) DESC, id`,
    )
    .get(board, member)?.id;
}

async function forgetOn(
  db: Database,
  store: Store,
  { board, member, role }: Membership,
  heir: string | undefined,
): Promise<Forgotten["boards"][number]> {
  const id = decodeBoardId(board);
  if (id === undefined) throw new CantDo(`The store holds a board of no possible id, ${board}.`);
  if (role === "leader" && heir === undefined) {
    await store.people.removeBoard(id);
    return { board, leader: undefined, isDeleted: true, takes: 0 };
  }
  const remove = db.transaction(() => {
    const setRole = db.prepare("UPDATE members SET role = ? WHERE board = ? AND id = ?");
    if (heir !== undefined) setRole.run("leader", board, heir);
    db.prepare("UPDATE lanes SET owner = NULL WHERE board = ? AND owner = ?").run(board, member);
    db.prepare("DELETE FROM members WHERE board = ? AND id = ?").run(board, member);
    db.prepare("UPDATE boards SET people_version = people_version + 1 WHERE id = ?").run(board);
  });
  remove.immediate();
  await forgetInTalk(store, id);
  const takes = db.prepare<[string, string], { n: number }>(
    "SELECT count(*) AS n FROM takes WHERE board = ? AND member = ?",
  );
  return { board, leader: heir, isDeleted: false, takes: takes.get(board, member)?.n ?? 0 };
}

/** `talk` holds names, and its log holds former ones: it is brought up to date and folded. */
async function forgetInTalk(store: Store, board: BoardId): Promise<void> {
  const key = { board, document: "talk" } as const;
  const standing = await store.people.standing(board);
  if (standing === undefined) return;
  const before = await store.log.load(key);
  const stored = new DocumentBytes(before.rows.map(({ update }) => update));
  const update = talkUpdate(stored.merged(), standing);
  if (update !== undefined) {
    await store.log.append([{ key, message: makeMessageId(), update, bindings: [] }]);
  }
  const { rows } = await store.log.load(key);
  const folded = compactionOf(rows);
  if (folded !== undefined) await store.log.compact(key, folded.last, folded.snapshot);
}
