/**
 * Takes a person out of a store: their name, sessions, links, lanes and roles. What they played and
 * wrote is the band's and stays, under ids that say nothing.
 */
import type { BoardId } from "@halflap/wire/api";
import type { DocumentKey } from "../../store/log-port.ts";
import { decodeBoardId, makeMessageId } from "../../store/secret.ts";
import type { Store } from "../../store/store.ts";
import { talkUpdate } from "../../sync/board-desk.ts";
import { compactionOf } from "../../sync/compaction.ts";
import { updatesOf } from "../../sync/document-reader.ts";
import { Unreadable } from "../../sync/folding-port.ts";
import { wholeOf } from "../../sync/whole-document.ts";
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

export type Forgetting = {
  readonly member: string;
  /** Ids under which the same person has other names. */
  readonly also: readonly string[];
  /** Boards that nobody else could lead are deleted. */
  readonly withBoards: boolean;
};

/**
 * Forgets whoever has the id, on all boards: in a file that no server has open, or in a database
 * beside its nodes, which follow. A board that they lead goes on to a player, one who owns a lane
 * before others; where nobody else plays, the board is deleted with them when `withBoards` says so.
 * Whoever is called otherwise on another board may be somebody else at the same browser, and goes
 * when named in `also`. Rejects with CantDo otherwise, and where the `talk` of a board that stays
 * can't be read, with nothing changed; or with less done, where that, or who else could lead a
 * board, has changed since the command began. It can be given again.
 */
export async function forgetMember(
  place: StorePlace,
  { member, also, withBoards }: Forgetting,
  now: number,
): Promise<Forgotten> {
  const records = await openToChange(place, now, "beside nodes");
  try {
    const { ask } = records;
    const all = await membershipsOf(ask, member);
    const others = othersAmong(all).filter((one) => !also.includes(one.member));
    if (others.length > 0) throw new CantDo(othersWords(others));
    const alone: Membership[] = [];
    for (const one of all) {
      if ((await leadWithout(ask, one)).kind === "alone") alone.push(one);
    }
    if (alone.length > 0 && !withBoards) throw new CantDo(aloneWords(alone));
    for (const { board } of all.filter((one) => !alone.includes(one))) {
      await readTalk(records.store, boardIdOf(board));
    }
    const boards: Forgotten["boards"][number][] = [];
    // The one that was named last, so that the same command finds the rest after a crash.
    for (const one of [...all].reverse()) {
      boards.push(await forgetOn(records, one, withBoards));
    }
    await records.tidy(); // what was deleted or renamed earlier may still stand in free pages
    return { boards };
  } finally {
    await records.close();
  }
}

/** Those who are called otherwise than the first. */
function othersAmong([first, ...more]: readonly Membership[]): readonly Membership[] {
  return more.filter(({ name }) => name !== first?.name);
}

function othersWords(others: readonly Membership[]): string {
  const list = others.map(({ member, name, board }) => `"${name}" (${member}) on ${board}`);
  const also = others.map(({ member }) => ` --also ${member}`).join("");
  return `By their browser they are also ${list.join(", ")}. If all that is one person:${also}.`;
}

function aloneWords(alone: readonly Membership[]): string {
  const boards = alone.map(({ board }) => board).join(", ");
  return `Nobody else could lead ${boards}. With --with-boards they are deleted too.`;
}

/** What becomes of the lead of a board without a member. */
type Lead =
  | { readonly kind: "not-theirs" }
  | { readonly kind: "inherited"; readonly heir: string }
  | { readonly kind: "alone" };

/** The heir is a player, before others one who owns a lane. */
async function leadWithout(ask: Ask, { board, member }: Membership): Promise<Lead> {
  const isTheirs = "SELECT 1 AS n FROM members WHERE board = $1 AND id = $2 AND role = 'leader'";
  if ((await ask(isTheirs, [board, member])).length === 0) return { kind: "not-theirs" };
  const [heir] = await ask<{ id: string }>(
    `SELECT id FROM members m WHERE board = $1 AND id <> $2 AND role = 'player'
     ORDER BY EXISTS (SELECT 1 FROM lanes WHERE board = m.board AND owner = m.id) DESC, id`,
    [board, member],
  );
  return heir === undefined ? { kind: "alone" } : { kind: "inherited", heir: heir.id };
}

function boardIdOf(board: string): BoardId {
  const id = decodeBoardId(board);
  if (id === undefined) throw new CantDo(`The store holds a board of no possible id, ${board}.`);
  return id;
}

async function forgetOn(
  records: WritableRecords,
  one: Membership,
  withBoards: boolean,
): Promise<Forgotten["boards"][number]> {
  const { ask, store } = records;
  const { board, member } = one;
  const id = boardIdOf(board);
  // Their row goes last, since by it the same command finds the board after a crash; and once more
  // after it, since nodes may have written meanwhile what the tables said.
  const isGoing = (await leadWithout(ask, one)).kind === "alone";
  if (!isGoing) await forgetInTalk(store, id, member);
  const lead = await forgetInTables(records, one);
  if (lead.kind === "alone") {
    if (!withBoards) throw new CantDo(aloneWords([one]));
    await store.people.removeBoard(id);
    return { board, leader: undefined, isDeleted: true, takes: 0 };
  }
  await forgetInTalk(store, id, member);
  const [takes] = await ask<{ n: number }>(
    "SELECT count(*) AS n FROM takes WHERE board = $1 AND member = $2",
    [board, member],
  );
  const leader = lead.kind === "inherited" ? lead.heir : undefined;
  return { board, leader, isDeleted: false, takes: takes?.n ?? 0 };
}

/** Changes nothing where nobody else could lead. */
async function forgetInTables({ ask, change }: WritableRecords, one: Membership): Promise<Lead> {
  const { board, member } = one;
  return change(async () => {
    // The board first, as every writer does: of two the second waits, and neither for the other.
    // Who leads is read behind it, since nodes may have handed the lead on meanwhile.
    await ask("UPDATE boards SET people_version = people_version + 1 WHERE id = $1", [board]);
    const lead = await leadWithout(ask, one);
    if (lead.kind === "alone") return lead;
    const setRole = "UPDATE members SET role = $1 WHERE board = $2 AND id = $3";
    if (lead.kind === "inherited") await ask(setRole, ["leader", board, lead.heir]);
    await ask("UPDATE lanes SET owner = NULL WHERE board = $1 AND owner = $2", [board, member]);
    await ask("DELETE FROM members WHERE board = $1 AND id = $2", [board, member]);
    return lead;
  });
}

/**
 * `talk` holds names, and its log holds former ones: it is brought up to what the tables say, or
 * will say without a member, and folded.
 */
async function forgetInTalk(store: Store, board: BoardId, member: string): Promise<void> {
  const key = talkOf(board);
  const standing = await store.people.standing(board);
  if (standing === undefined) return;
  const { whole } = await readTalk(store, board);
  const members = standing.members.filter(({ id }) => id !== member);
  const update = talkUpdate(whole, { ...standing, members });
  if (update !== undefined) {
    await store.log.append([{ key, message: makeMessageId(), update, bindings: [] }]);
  }
  const { folded } = await readTalk(store, board);
  if (folded !== undefined) await store.log.compact(key, folded.last, folded.snapshot);
}

/** As one update, and folded from several rows. Rejects with CantDo when it can't be read. */
async function readTalk({ log }: Store, board: BoardId) {
  const { rows } = await log.load(talkOf(board));
  try {
    return { whole: wholeOf(updatesOf(rows)), folded: compactionOf(rows) };
  } catch (fault) {
    if (!(fault instanceof Unreadable)) throw fault;
    const advice = "Mend it from a backup (verify names the row), and give the command again.";
    const words = "Names in it can't be taken out, so the board was left as it is.";
    throw new CantDo(`${board} talk: ${fault.message}. ${words} ${advice}`);
  }
}

function talkOf(board: BoardId): DocumentKey {
  return { board, document: "talk" };
}
