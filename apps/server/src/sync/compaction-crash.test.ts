/**
 * Folding while in use: whenever the process dies, before, within or after the fold, what is on the
 * disk reads as all that was acknowledged. The disk's images are taken in the middle of the
 * transaction, by a trigger that copies the file and its log as a kill would leave them.
 */
import { copyFileSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Database } from "better-sqlite3";
import fc from "fast-check";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as Y from "yjs";
import type { DocumentKey } from "../store/log-port.ts";
import { hashOf, makeBoardId, makeMemberId, makeMessageId, makeSecret } from "../store/secret.ts";
import { openSqlite } from "../store/sqlite/open.ts";
import { openStore, storeOver } from "../store/sqlite/store.ts";
import type { Store } from "../store/store.ts";
import { compactionOf } from "./compaction.ts";

const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-fold-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

type Stage = {
  readonly db: Database;
  readonly store: Store;
  readonly key: DocumentKey;
  readonly doc: Y.Doc;
  /** The acknowledged state at each image, beside the image's file. */
  readonly images: { readonly path: string; readonly wanted: string }[];
  image(): void;
};

async function stage(name: string): Promise<Stage> {
  const path = join(folder, `${name}.sqlite`);
  const db = openSqlite({ path, pagesMax: undefined });
  db.pragma("cache_size = 4"); // so small that unfinished work spills into the log
  const store = storeOver(db, () => 1);
  const board = makeBoardId();
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  const doc = new Y.Doc();
  const images: Stage["images"] = [];
  const image = () => {
    const copy = join(folder, `${name}-${images.length}.sqlite`);
    copyFileSync(path, copy);
    if (existsSync(`${path}-wal`)) copyFileSync(`${path}-wal`, `${copy}-wal`);
    images.push({ path: copy, wanted: JSON.stringify(doc.getMap("trial").toJSON()) });
  };
  db.function("take_image", { deterministic: false }, () => {
    image();
    return 0;
  });
  return { db, store, key: { board, document: "board" }, doc, images, image };
}

async function write({ store, key, doc }: Stage, count: number): Promise<void> {
  for (let i = 0; i < count; i += 1) {
    const before = Y.encodeStateVector(doc);
    doc.getMap("trial").set(`k${i % 7}`, `${i} ${"x".repeat(600)}`);
    const update = Y.encodeStateAsUpdate(doc, before);
    await store.log.append([{ key, message: makeMessageId(), update, bindings: [] }]);
  }
}

function watchStatements(db: Database): void {
  for (const what of ["UPDATE", "DELETE"]) {
    db.exec(
      `CREATE TEMP TRIGGER image_${what} AFTER ${what} ON main.updates
       BEGIN SELECT take_image(); END`,
    );
  }
}

async function readBack(path: string, key: DocumentKey): Promise<string> {
  const store = openStore({ path, pagesMax: undefined }, () => 1);
  const doc = new Y.Doc();
  for (const { update } of (await store.log.load(key)).rows) Y.applyUpdate(doc, update);
  await store.close();
  return JSON.stringify(doc.getMap("trial").toJSON());
}

async function lostIn({ images, key }: Stage): Promise<number> {
  let lost = 0;
  for (const { path, wanted } of images) if ((await readBack(path, key)) !== wanted) lost += 1;
  return lost;
}

test("no image of the disk around a fold lacks anything acknowledged", async () => {
  let number = 0;
  const counts = fc.record({
    before: fc.integer({ min: 2, max: 12 }),
    meanwhile: fc.integer({ min: 0, max: 4 }),
    after: fc.integer({ min: 0, max: 4 }),
  });
  await fc.assert(
    fc.asyncProperty(counts, async ({ before, meanwhile, after }) => {
      number += 1;
      const one = await stage(`fold-${number}`);
      await write(one, before);
      one.image();
      const folded = compactionOf((await one.store.log.load(one.key)).rows);
      await write(one, meanwhile);
      watchStatements(one.db);
      if (folded === undefined) throw new Error("two rows can be folded");
      expect(await one.store.log.compact(one.key, folded.last, folded.snapshot)).toBe(true);
      one.image();
      await write(one, after);
      one.image();
      expect(one.images.length).toBeGreaterThan(before); // the trigger saw every row
      expect(await lostIn(one)).toBe(0);
      await one.store.close();
    }),
    { numRuns: 20 },
  );
});

test("a fold in two transactions is caught", async () => {
  const one = await stage("wrong");
  await write(one, 8);
  const folded = compactionOf((await one.store.log.load(one.key)).rows);
  if (folded === undefined) throw new Error("two rows can be folded");
  watchStatements(one.db);
  one.db.prepare("DELETE FROM updates WHERE id < ?").run(folded.last);
  one.image();
  one.db.prepare("UPDATE updates SET data = ? WHERE id = ?").run(folded.snapshot, folded.last);
  expect(await lostIn(one)).toBeGreaterThan(0);
  await one.store.close();
});
