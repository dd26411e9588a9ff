/** What verify says of a file in which something was lost that nothing else points to. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import {
  hashOf,
  makeBoardId,
  makeMemberId,
  makeMessageId,
  makeSecret,
} from "../../store/secret.ts";
import { openStore, storeFile } from "../../store/sqlite/store.ts";
import { verify } from "./verify.ts";

let folder: string;
let board: BoardId;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "halflap-verify-"));
  board = makeBoardId();
  const documents = emptyDocuments();
  const store = openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => 1);
  await store.people.makeBoard({
    id: board,
    leader: { id: makeMemberId(), name: "Ada", role: "leader" },
    session: hashOf(makeSecret()),
    at: 1,
    rows: documentNames.map((document) => ({
      key: { board, document },
      message: makeMessageId(),
      update: Y.encodeStateAsUpdate(documents[document]),
      bindings: [],
    })),
  });
  await store.close();
});

afterEach(() => rmSync(folder, { recursive: true }));

const lane = "SELECT id FROM documents WHERE name = 'lane-upper'";

test.each([
  ["nothing", "SELECT 1", []],
  [
    "all rows of a document",
    `DELETE FROM updates WHERE document = (${lane})`,
    [{ part: "lane-upper", why: "it has lost all its rows" }],
  ],
  [
    "the row that others were folded into",
    "UPDATE documents SET folded = 77 WHERE name = 'lane-upper'",
    [{ part: "lane-upper", why: "its folded row 77 is missing" }],
  ],
  [
    "the leader",
    "UPDATE members SET role = 'player'",
    [{ part: "members", why: "0 of them lead, not one" }],
  ],
  [
    "who alone leads",
    "INSERT INTO members SELECT board, 'other', name, role FROM members",
    [{ part: "members", why: "2 of them lead, not one" }],
  ],
])("verify says that %s was lost", async (_what, loss, faults) => {
  const db = new Sqlite(join(folder, storeFile));
  db.exec(loss);
  db.close();
  const found = await verify({ kind: "file", path: folder });
  expect(found.faults).toEqual(faults.map((fault) => ({ board, ...fault })));
});
