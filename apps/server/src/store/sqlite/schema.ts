/** The SQLite file's schema and the steps that lead to it; forward only. */
import type { Database } from "better-sqlite3";

/**
 * Step n takes a file from schema n to n + 1 (PRAGMA user_version).
 *
 * `updates` is an append-only log: `id` orders it and new rows go to its end. The index by document
 * holds two small integers a row; the blobs themselves never move until they are compacted. `lanes`
 * keeps its own rules: a row per lane, and a partial index that lets a member own one at most.
 * `takes` names who played without a reference: a take stays when its player leaves the board. Its
 * sound lies in `take_parts`, by where each part begins; for a while it was a column.
 * `documents.folded` is the row that a fold took the place of. `client_ids.row_id` is the row that
 * bound the id, `boards.people_version` counts the changes to members, lanes, links and takes. A
 * commit's result is always known here, so no row carries a message; for a while they did.
 */
const steps: readonly string[] = [
  `
  CREATE TABLE boards (
    id TEXT PRIMARY KEY, made_at INTEGER NOT NULL, epoch INTEGER NOT NULL DEFAULT 1
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE documents (
    id INTEGER PRIMARY KEY,
    board TEXT NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    UNIQUE (board, name)
  ) STRICT;

  CREATE TABLE updates (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    document INTEGER NOT NULL REFERENCES documents (id) ON DELETE CASCADE,
    at INTEGER NOT NULL,
    data BLOB NOT NULL
  ) STRICT;
  CREATE INDEX updates_by_document ON updates (document, id);

  CREATE TABLE client_ids (
    document INTEGER NOT NULL REFERENCES documents (id) ON DELETE CASCADE,
    client INTEGER NOT NULL,
    member TEXT NOT NULL,
    PRIMARY KEY (document, client)
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE members (
    board TEXT NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    role TEXT NOT NULL CHECK (role IN ('leader', 'player', 'listener')),
    PRIMARY KEY (board, id)
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE sessions (
    hash BLOB NOT NULL,
    board TEXT NOT NULL,
    member TEXT NOT NULL,
    PRIMARY KEY (hash, board),
    FOREIGN KEY (board, member) REFERENCES members (board, id) ON DELETE CASCADE
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX sessions_by_member ON sessions (board, member);

  CREATE TABLE links (
    id TEXT PRIMARY KEY,
    hash BLOB NOT NULL UNIQUE,
    board TEXT NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    role TEXT NOT NULL CHECK (role IN ('player', 'listener', 'self')),
    member TEXT,
    made_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL,
    uses_left INTEGER NOT NULL CHECK (uses_left >= 0),
    revoked INTEGER NOT NULL DEFAULT 0,
    FOREIGN KEY (board, member) REFERENCES members (board, id) ON DELETE CASCADE
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX links_by_board ON links (board);

  CREATE TABLE lanes (
    board TEXT NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    lane TEXT NOT NULL CHECK (lane IN ('upper', 'lower')),
    owner TEXT,
    PRIMARY KEY (board, lane),
    FOREIGN KEY (board, owner) REFERENCES members (board, id)
  ) STRICT, WITHOUT ROWID;
  CREATE UNIQUE INDEX one_lane_each ON lanes (board, owner) WHERE owner IS NOT NULL;
  `,
  `
  CREATE TABLE takes (
    number INTEGER PRIMARY KEY,
    board TEXT NOT NULL REFERENCES boards (id) ON DELETE CASCADE,
    id TEXT NOT NULL UNIQUE,
    member TEXT NOT NULL,
    at INTEGER NOT NULL,
    head TEXT NOT NULL,
    type TEXT NOT NULL,
    size INTEGER NOT NULL,
    sound BLOB NOT NULL
  ) STRICT;
  CREATE INDEX takes_by_board ON takes (board, at, id, size);
  `,
  `
  ALTER TABLE boards ADD COLUMN people_version INTEGER NOT NULL DEFAULT 1;
  ALTER TABLE documents ADD COLUMN folded INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE client_ids ADD COLUMN row_id INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE updates ADD COLUMN message TEXT;
  CREATE UNIQUE INDEX updates_by_message ON updates (document, message);
  `,
  "DROP INDEX updates_by_message; ALTER TABLE updates DROP COLUMN message;",
  `
  CREATE TABLE take_parts (
    number INTEGER PRIMARY KEY,
    take TEXT NOT NULL REFERENCES takes (id) ON DELETE CASCADE,
    start INTEGER NOT NULL,
    data BLOB NOT NULL,
    UNIQUE (take, start)
  ) STRICT;
  WITH RECURSIVE parts (take, start) AS (
    SELECT id, 0 FROM takes
    UNION ALL
    SELECT take, start + 131072 FROM parts JOIN takes ON id = take
    WHERE start + 131072 < length(sound)
  )
  INSERT INTO take_parts (take, start, data)
  SELECT take, start, substr(sound, start + 1, 131072) FROM parts JOIN takes ON id = take;
  ALTER TABLE takes DROP COLUMN sound;
  `,
];

export const schemaVersion = steps.length;

/**
 * Brings a file's schema up to date in one transaction, which reads where the file stands too: of
 * two programs that open it at once one takes the steps. `wanted` is a test's to make an older
 * file. Throws on a file of a newer server: it is left alone.
 */
export function bringUpToDate(db: Database, wanted = schemaVersion): void {
  db.transaction(() => {
    const found = Number(db.pragma("user_version", { simple: true }));
    if (found > schemaVersion) {
      throw new Error(
        `the store has schema ${found}, made by a newer server; this one knows ${schemaVersion}`,
      );
    }
    if (found >= wanted) return;
    for (const step of steps.slice(found, wanted)) db.exec(step);
    db.pragma(`user_version = ${wanted}`);
  }).immediate();
}
