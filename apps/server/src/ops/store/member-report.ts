/** Everything that a store holds about a person, as plain values. */
import { copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import * as Y from "yjs";
import { headOf } from "../../store/take-rows.ts";
import { openRecords } from "./open-records.ts";
import { type Membership, membershipsOf } from "./person.ts";
import type { Ask, StorePlace } from "./records.ts";

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

/** The report on whoever has the id, on all boards. Rejects with CantDo when nobody has it. */
export async function memberReport(place: StorePlace, member: string): Promise<MemberReport> {
  const { ask, moment, close } = await openRecords(place);
  try {
    return await moment(async () => {
      const memberships: MembershipReport[] = [];
      for (const one of await membershipsOf(ask, member))
        memberships.push(await reportOn(ask, one));
      return { memberships };
    });
  } finally {
    await close();
  }
}

/** The sound of a take, to be handed over with the report; undefined when it was removed since. */
export async function takeSound(place: StorePlace, take: string): Promise<Uint8Array | undefined> {
  const { ask, soundOf, moment, close } = await openRecords(place);
  try {
    return await moment(async () => {
      const found = await ask("SELECT id FROM takes WHERE id = $1", [take]);
      return found.length === 0 ? undefined : await soundOf(take);
    });
  } finally {
    await close();
  }
}

async function reportOn(ask: Ask, membership: Membership): Promise<MembershipReport> {
  const { board, member } = membership;
  const of = [board, member];
  const lanes = await ask<{ lane: string }>(
    "SELECT lane FROM lanes WHERE board = $1 AND owner = $2 ORDER BY lane",
    of,
  );
  const [signedIn] = await ask<{ n: number }>(
    "SELECT count(*) AS n FROM sessions WHERE board = $1 AND member = $2",
    of,
  );
  const writings = await ask<{ name: string; n: number }>(
    `SELECT name, count(*) AS n FROM client_ids JOIN documents ON documents.id = document
     WHERE board = $1 AND member = $2 GROUP BY name ORDER BY name`,
    of,
  );
  const links = await ask<LinkRow>(
    `SELECT id, made_at, expires_at, uses_left, revoked FROM links
     WHERE board = $1 AND member = $2 ORDER BY made_at, id`,
    of,
  );
  const takes = await ask<TakeRow>(
    `SELECT id, at, head, type, size FROM takes WHERE board = $1 AND member = $2 ORDER BY at, id`,
    of,
  );
  return {
    ...membership,
    title: await titleOf(ask, board),
    lanes: lanes.map(({ lane }) => lane),
    sessions: signedIn?.n ?? 0,
    links: links.map(linkOf),
    takes: takes.map(takeOf),
    writings: Object.fromEntries(writings.map(({ name, n }) => [name, n])),
  };
}

type LinkRow = {
  readonly id: string;
  readonly made_at: number;
  readonly expires_at: number;
  readonly uses_left: number;
  /** A file knows no truth values, only 0 and 1. */
  readonly revoked: number | boolean;
};

function linkOf(row: LinkRow): MembershipReport["links"][number] {
  return {
    id: row.id,
    madeAt: new Date(row.made_at).toISOString(),
    expiresAt: new Date(row.expires_at).toISOString(),
    usesLeft: row.uses_left,
    revoked: Boolean(row.revoked),
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
  return {
    id,
    name: headOf(head)?.name ?? "",
    at: new Date(at).toISOString(),
    type,
    bytes: size,
  };
}

/** Empty for a board that can't be read: the rest of the report is owed all the same. */
async function titleOf(ask: Ask, board: string): Promise<string> {
  const documents = emptyDocuments();
  const rows = await ask<{ data: Buffer }>(
    `SELECT data FROM updates JOIN documents ON documents.id = document
     WHERE board = $1 AND name = 'board' AND updates.id >= folded ORDER BY updates.id`,
    [board],
  );
  try {
    for (const { data } of rows) Y.applyUpdate(documents.board, new Uint8Array(data));
    return copyOf(documents).title;
  } catch {
    return "";
  }
}
