/**
 * Takes a person out of a store: their name, sessions, links, lanes and roles. What they played and
 * wrote is the band's and stays, under ids that say nothing.
 */
import type { BoardId } from "@halflap/wire/api";
import { decodeBoardId, makeMessageId } from "../../store/secret.ts";
import type { Store } from "../../store/store.ts";
import { talkUpdate } from "../../sync/board-desk.ts";
import { compactionOf } from "../../sync/compaction.ts";
import { DocumentBytes } from "../../sync/document-bytes.ts";
import { openToChange, type WritableRecords } from "./open-records.ts";
import { type Membership, membershipsOf } from "./person.ts";
import { CantDo } from "./place.ts";
import type { Ask, StorePlace } from "./records.ts";

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
 * Forgets whoever has the id, on all boards: in a file that no server has open, or in a database
 * beside its nodes, which follow. A board that they lead goes on to a player, one who owns a lane
 * before others; where nobody else plays, the board is deleted with them when `withBoards` says so.
 * Rejects with CantDo otherwise, with nothing changed.
 */
export async function forgetMember(
  place: StorePlace,
  member: string,
  withBoards: boolean,
  now: number,
): Promise<Forgotten> {
  const records = await openToChange(place, now, "beside nodes");
  try {
    const { ask } = records;
    const all = await membershipsOf(ask, member);
    const heirs = new Map<Membership, string | undefined>();
    for (const one of all) heirs.set(one, await heirOf(ask, one));
    const alone = all.filter((one) => one.role === "leader" && heirs.get(one) === undefined);
    if (alone.length > 0 && !withBoards) throw new CantDo(aloneWords(alone));
    const boards: Forgotten["boards"][number][] = [];
    // The one that was named last, so that the same command finds the rest after a crash.
    for (const one of [...all].reverse()) {
      boards.push(await forgetOn(records, one, heirs.get(one)));
    }
    await records.tidy(); // what was deleted or renamed earlier may still stand in free pages
    return { boards };
  } finally {
    await records.close();
  }
}

function aloneWords(alone: readonly Membership[]): string {
  const boards = alone.map(({ board }) => board).join(", ");
  return `Nobody else could lead ${boards}. With --with-boards they are deleted too.`;
}

/** Who leads a board after its leader: a player, before others one who owns a lane. */
async function heirOf(ask: Ask, { board, member, role }: Membership): Promise<string | undefined> {
  if (role !== "leader") return undefined;
  const [heir] = await ask<{ id: string }>(
    `SELECT id FROM members m WHERE board = $1 AND id <> $2 AND role = 'player'
     ORDER BY EXISTS (SELECT 1 FROM lanes WHERE board = m.board AND owner = m.id) DESC, id`,
    [board, member],
  );
  return heir?.id;
}

async function forgetOn(
  { ask, change, store }: WritableRecords,
  { board, member, role }: Membership,
  heir: string | undefined,
): Promise<Forgotten["boards"][number]> {
  const id = decodeBoardId(board);
  if (id === undefined) throw new CantDo(`The store holds a board of no possible id, ${board}.`);
  if (role === "leader" && heir === undefined) {
    await store.people.removeBoard(id);
    return { board, leader: undefined, isDeleted: true, takes: 0 };
  }
  // Their row goes last, since by it the same command finds the board after a crash; and once more
  // after it, since nodes may have written meanwhile what the tables said.
  await forgetInTalk(store, id, member);
  await change(async () => {
    // The board first, as every writer does: of two the second waits, and neither for the other.
    await ask("UPDATE boards SET people_version = people_version + 1 WHERE id = $1", [board]);
    const setRole = "UPDATE members SET role = $1 WHERE board = $2 AND id = $3";
    if (heir !== undefined) await ask(setRole, ["leader", board, heir]);
    await ask("UPDATE lanes SET owner = NULL WHERE board = $1 AND owner = $2", [board, member]);
    await ask("DELETE FROM members WHERE board = $1 AND id = $2", [board, member]);
  });
  await forgetInTalk(store, id, member);
  const [takes] = await ask<{ n: number }>(
    "SELECT count(*) AS n FROM takes WHERE board = $1 AND member = $2",
    [board, member],
  );
  return { board, leader: heir, isDeleted: false, takes: takes?.n ?? 0 };
}

/**
 * `talk` holds names, and its log holds former ones: it is brought up to what the tables say, or
 * will say without a member, and folded.
 */
async function forgetInTalk(store: Store, board: BoardId, member: string): Promise<void> {
  const key = { board, document: "talk" } as const;
  const standing = await store.people.standing(board);
  if (standing === undefined) return;
  const before = await store.log.load(key);
  const stored = new DocumentBytes(before.rows.map(({ update }) => update));
  const members = standing.members.filter(({ id }) => id !== member);
  const update = talkUpdate(stored.merged(), { ...standing, members });
  if (update !== undefined) {
    await store.log.append([{ key, message: makeMessageId(), update, bindings: [] }]);
  }
  const { rows } = await store.log.load(key);
  const folded = compactionOf(rows);
  if (folded !== undefined) await store.log.compact(key, folded.last, folded.snapshot);
}
