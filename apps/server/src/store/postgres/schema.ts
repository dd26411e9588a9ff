/** The tables in PostgreSQL and the steps that lead to them; forward only. */
import type { Query } from "./connect.ts";
import { DatabaseUnfit } from "./faults.ts";

/**
 * Step n takes a database from schema n to n + 1. A step only adds: nodes of the release before it
 * are still at work while it is taken. What a release has stopped using, the next one may drop.
 *
 * The tables are those of the SQLite file, but a document counts its own rows (`head`): the count
 * is raised in the transaction that writes the row, so the order of the ids is the order of the
 * commits and none is left out. A sequence would give ids away before the commit, and a reader that
 * has seen 8 would never look for 7. `updates` is in parts by document, so that no index grows
 * beyond what stays in memory.
 */
const steps: readonly string[] = [
  `
  CREATE TABLE boards (
    id text PRIMARY KEY,
    made_at bigint NOT NULL,
    epoch bigint NOT NULL DEFAULT 1,
    people_version bigint NOT NULL DEFAULT 1
  );

  CREATE TABLE documents (
    id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    board text NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    name text NOT NULL,
    head bigint NOT NULL DEFAULT 0,
    folded bigint NOT NULL DEFAULT 0,
    edited_at bigint NOT NULL DEFAULT 0,
    UNIQUE (board, name)
  );

  CREATE TABLE updates (
    document bigint NOT NULL REFERENCES documents (id) ON DELETE CASCADE,
    id bigint NOT NULL,
    at bigint NOT NULL,
    message text NOT NULL,
    data bytea NOT NULL,
    PRIMARY KEY (document, id),
    UNIQUE (document, message)
  ) PARTITION BY HASH (document);
  CREATE TABLE updates_0 PARTITION OF updates FOR VALUES WITH (MODULUS 4, REMAINDER 0);
  CREATE TABLE updates_1 PARTITION OF updates FOR VALUES WITH (MODULUS 4, REMAINDER 1);
  CREATE TABLE updates_2 PARTITION OF updates FOR VALUES WITH (MODULUS 4, REMAINDER 2);
  CREATE TABLE updates_3 PARTITION OF updates FOR VALUES WITH (MODULUS 4, REMAINDER 3);

  CREATE TABLE client_ids (
    document bigint NOT NULL REFERENCES documents (id) ON DELETE CASCADE,
    client bigint NOT NULL,
    member text NOT NULL,
    row_id bigint NOT NULL,
    PRIMARY KEY (document, client)
  );

  CREATE TABLE members (
    board text NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    id text NOT NULL,
    name text NOT NULL,
    role text NOT NULL CHECK (role IN ('leader', 'player', 'listener')),
    PRIMARY KEY (board, id)
  );

  CREATE TABLE sessions (
    hash bytea NOT NULL,
    board text NOT NULL,
    member text NOT NULL,
    PRIMARY KEY (hash, board),
    FOREIGN KEY (board, member) REFERENCES members (board, id) ON DELETE CASCADE
  );
  CREATE INDEX sessions_by_member ON sessions (board, member);

  CREATE TABLE links (
    id text PRIMARY KEY,
    hash bytea NOT NULL UNIQUE,
    board text NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    role text NOT NULL CHECK (role IN ('player', 'listener', 'self')),
    member text,
    made_at bigint NOT NULL,
    expires_at bigint NOT NULL,
    uses_left bigint NOT NULL CHECK (uses_left >= 0),
    revoked boolean NOT NULL DEFAULT false,
    FOREIGN KEY (board, member) REFERENCES members (board, id) ON DELETE CASCADE
  );
  CREATE INDEX links_by_board ON links (board);

  CREATE TABLE lanes (
    board text NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    lane text NOT NULL CHECK (lane IN ('upper', 'lower')),
    owner text,
    PRIMARY KEY (board, lane),
    FOREIGN KEY (board, owner) REFERENCES members (board, id)
  );
  CREATE UNIQUE INDEX one_lane_each ON lanes (board, owner) WHERE owner IS NOT NULL;

  CREATE TABLE takes (
    board text NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    id text NOT NULL UNIQUE,
    member text NOT NULL,
    at bigint NOT NULL,
    head text NOT NULL,
    type text NOT NULL,
    size bigint NOT NULL,
    sound bytea NOT NULL
  );
  CREATE INDEX takes_by_board ON takes (board, at, id);
  -- Sound does not pack, and unpacked a part of it is read without the rest.
  ALTER TABLE takes ALTER COLUMN sound SET STORAGE EXTERNAL;
  `,
];

export const schemaVersion = steps.length;

/** Held while steps are taken, so that of several nodes that start at once one takes them. */
const lock = 4_870_152_339;

/**
 * Brings a database up to date, inside a transaction of the caller's. Throws on one that a newer
 * server made: it is left alone.
 */
export async function bringUpToDate(query: Query): Promise<void> {
  await query("SELECT pg_advisory_xact_lock($1)", [lock]);
  await query("CREATE TABLE IF NOT EXISTS halflap_schema (version bigint NOT NULL)");
  const [known] = await query<{ version: number }>("SELECT version FROM halflap_schema");
  const found = known?.version ?? 0;
  if (found > schemaVersion) {
    throw new DatabaseUnfit(
      `the database has schema ${found}, made by a newer server; this one knows ${schemaVersion}`,
    );
  }
  if (found === schemaVersion) return;
  for (const step of steps.slice(found)) await query(step);
  if (known === undefined) await query("INSERT INTO halflap_schema VALUES ($1)", [schemaVersion]);
  else await query("UPDATE halflap_schema SET version = $1", [schemaVersion]);
}
