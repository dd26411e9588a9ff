/** Titles for the list of boards: read from the document, and never older than what is stored. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTitle } from "@halflap/board/edits/chart";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { DocumentKey } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../store/secret.ts";
import { openStore } from "../store/sqlite/store.ts";
import { BoardTitles } from "./board-titles.ts";
import { compactionOf } from "./compaction.ts";
import { Rooms } from "./rooms.ts";
import { SaveLoop } from "./save-loop.ts";

test("a title is current after every edit and every fold, and dated by the last edit", async () => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-titles-"));
  let now = 1000;
  const store = openStore({ path: join(folder, "titles.sqlite"), pagesMax: undefined }, () => now);
  const board = makeBoardId();
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: now, rows: [] });
  const key: DocumentKey = { board, document: "board" };
  const { log, people } = store;
  const faults: unknown[] = [];
  const onFault = (fault: unknown) => faults.push(fault);
  const saveLoop = new SaveLoop({ log, now: () => now, onFault });
  const titles = new BoardTitles(log, new Rooms({ log, people, saveLoop, onFault }));
  const doc = new Y.Doc();
  const waiting: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => waiting.push(update));

  for (const title of ["One", "Two", "Three", "Four"]) {
    now += 1000;
    setTitle(doc, title);
    setTitle(doc, `${title} again`);
    await store.log.append(
      waiting.splice(0).map((update) => ({ key, message: makeMessageId(), update, bindings: [] })),
    );
    const fold = compactionOf((await store.log.load(key)).rows);
    if (fold !== undefined) await store.log.compact(key, fold.last, fold.snapshot);
    expect(await titles.read(board)).toEqual({ title: `${title} again`, editedAt: now });
  }
  expect(faults).toEqual([]);
  const damaged = { key, message: makeMessageId(), update: new Uint8Array([9, 9]), bindings: [] };
  await log.append([damaged]);
  expect(await titles.read(board)).toEqual({ title: "", editedAt: now });
  expect(faults).toHaveLength(1);
  await store.close();
  rmSync(folder, { recursive: true });
});
