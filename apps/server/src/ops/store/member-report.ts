/** Everything that a store holds about a person, as plain values. */
import { copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import type { Database } from "better-sqlite3";
import * as Y from "yjs";
import { type Membership, membershipsOf } from "./person.ts";
import { openCurrent } from "./place.ts";

export type MemberReport = { readonly memberships: readonly MembershipReport[] };

export type MembershipReport = Membership & {
  readonly title: string;
  readonly lanes: readonly string[];
  /** Browsers that are signed in; only hashes of their secrets are kept, which say nothing. */
  readonly sessions: number;
  /** Links to a device of one's own; other links do not say who made them. */
  readonly links: readonly {
    readonly id: string;
    readonly madeAt: string;
    readonly expiresAt: string;
    readonly usesLeft: number;
    readonly revoked: boolean;
  }[];
  readonly takes: readonly {
    readonly id: string;
    readonly name: string;
    readonly at: string;
    readonly type: string;
    readonly bytes: number;
  }[];
  /** Page loads under which something was written, in each document. */
  readonly writings: Readonly<Record<string, number>>;
};

/** The report on whoever has the id, on all boards. Throws CantDo when nobody has it. */
export function memberReport(store: string, member: string): MemberReport {
  const db = openCurrent(store);
  try {
    const read = db.transaction(() => membershipsOf(db, member).map((one) => reportOn(db, one)));
    return { memberships: read() };
  } finally {
    db.close();
  }
}

/** The sound of a take, to be handed over with the report. Throws when there is no such take. */
export function takeSound(store: string, take: string): Uint8Array {
  const db = openCurrent(store);
  try {
    const find = db.prepare<[string], { sound: Buffer }>("SELECT sound FROM takes WHERE id = ?");
    const found = find.get(take);
    if (found === undefined) throw new Error(`the take ${take} is not there`);
    return found.sound;
  } finally {
    db.close();
  }
}

function reportOn(db: Database, membership: Membership): MembershipReport {
  const { board, member } = membership;
  const all = <Row>(sql: string) => db.prepare<[string, string], Row>(sql).all(board, member);
  const lanes = all<{ lane: string }>("SELECT lane FROM lanes WHERE board = ? AND owner = ?");
  const sessions = all("SELECT hash FROM sessions WHERE board = ? AND member = ?");
  const writings = all<{ name: string; n: number }>(
    `SELECT name, count(*) AS n FROM client_ids JOIN documents ON documents.id = document
     WHERE board = ? AND member = ? GROUP BY name`,
  );
  return {
    ...membership,
    title: titleOf(db, board),
    lanes: lanes.map(({ lane }) => lane),
    sessions: sessions.length,
    links: all<LinkRow>("SELECT * FROM links WHERE board = ? AND member = ?").map(linkOf),
    takes: all<TakeRow>("SELECT * FROM takes WHERE board = ? AND member = ?").map(takeOf),
    writings: Object.fromEntries(writings.map(({ name, n }) => [name, n])),
  };
}

type LinkRow = {
  readonly id: string;
  readonly made_at: number;
  readonly expires_at: number;
  readonly uses_left: number;
  readonly revoked: number;
};

function linkOf(row: LinkRow): MembershipReport["links"][number] {
  return {
    id: row.id,
    madeAt: new Date(row.made_at).toISOString(),
    expiresAt: new Date(row.expires_at).toISOString(),
    usesLeft: row.uses_left,
    revoked: row.revoked !== 0,
  };
}

type TakeRow = {
  readonly id: string;
  readonly at: number;
  readonly head: string;
  readonly type: string;
  readonly size: number;
};

function takeOf({ id, at, head, type, size }: TakeRow): MembershipReport["takes"][number] {
  const said: unknown = JSON.parse(head);
  const hasName = typeof said === "object" && said !== null && "name" in said;
  return {
    id,
    name: hasName ? String(said.name) : "",
    at: new Date(at).toISOString(),
    type,
    bytes: size,
  };
}

function titleOf(db: Database, board: string): string {
  const documents = emptyDocuments();
  const rows = db
    .prepare<[string], { data: Buffer }>(
      `SELECT data FROM updates JOIN documents ON documents.id = document
       WHERE board = ? AND name = 'board' AND updates.id >= folded ORDER BY updates.id`,
    )
    .all(board);
  for (const { data } of rows) Y.applyUpdate(documents.board, new Uint8Array(data));
  return copyOf(documents).title;
}
