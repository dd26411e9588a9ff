/** Migration: older documents and copies are lifted, newer ones are reported. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { emptyDocuments } from "./documents.ts";
import { chartLayout, schemaVersion } from "./layout.ts";
import {
  type CopyUpgrade,
  isNewer,
  type Migration,
  migrateDocument,
  migrations,
  upgradedCopy,
} from "./migrate.ts";
import { makeReader } from "./read.ts";

/** A made-up history: version 0 called the title "name", version -1 called it "label". */
const steps: readonly Migration[] = [
  { to: 0, board: (doc) => rename(doc, "label", "name") },
  { to: 1, board: (doc) => rename(doc, "name", "title") },
];

function rename(doc: Y.Doc, from: string, to: string): void {
  const { meta } = chartLayout(doc);
  if (!meta.has(from)) return;
  meta.set(to, meta.get(from));
  meta.delete(from);
}

const version = 1;

function older(): Y.Doc {
  const doc = new Y.Doc();
  const { meta } = chartLayout(doc);
  meta.set("schema", -1);
  meta.set("label", "Paper Ferry Home");
  return doc;
}

test("an older document is lifted step by step, in one transaction", () => {
  const doc = older();
  let updates = 0;
  doc.on("update", () => {
    updates += 1;
  });
  expect(migrateDocument(doc, "board", steps, version)).toBe("migrated");
  expect(updates).toBe(1);
  expect(makeReader({ ...emptyDocuments(), board: doc })().title).toBe("Paper Ferry Home");
  expect(migrateDocument(doc, "board", steps, version)).toBe("current");
});

test("two pages that lift at once agree, and nothing is lost", () => {
  const one = older();
  const two = new Y.Doc();
  Y.applyUpdate(two, Y.encodeStateAsUpdate(one));
  migrateDocument(one, "board", steps, version);
  migrateDocument(two, "board", steps, version);
  Y.applyUpdate(one, Y.encodeStateAsUpdate(two));
  Y.applyUpdate(two, Y.encodeStateAsUpdate(one));
  expect(one.getMap("meta").toJSON()).toEqual({ schema: 1, title: "Paper Ferry Home" });
  expect(two.getMap("meta").toJSON()).toEqual(one.getMap("meta").toJSON());
});

test("a newer document still reads, and is reported", () => {
  const docs = emptyDocuments();
  expect(isNewer(docs)).toBe(false);
  fillDocuments(docs, demoSolution());
  expect(isNewer(docs)).toBe(false);
  chartLayout(docs.board).meta.set("schema", schemaVersion + 1);
  expect(isNewer(docs)).toBe(true);
  expect(migrateDocument(docs.board, "board")).toBe("newer");
  expect(makeReader(docs)().sections).toHaveLength(5);
});

test("a document with nothing in it is left alone", () => {
  const doc = new Y.Doc();
  expect(migrateDocument(doc, "lane", steps)).toBe("current");
  expect(doc.store.clients.size).toBe(0);
});

test("the steps that ship lead to the version that is written", () => {
  expect(migrations.map(({ to }) => to)).toEqual(
    Array.from({ length: schemaVersion - 1 }, (_, i) => i + 2),
  );
});

test("an older copy is lifted, a newer one refused", () => {
  const upgrades: readonly CopyUpgrade[] = [
    { to: 0, upgrade: (copy) => ({ ...copy, version: 0, steps: ["0"] }) },
    { to: 1, upgrade: (copy) => ({ ...copy, version: 1, lifted: true }) },
  ];
  const old = upgradedCopy({ version: -1 }, 1, upgrades);
  expect(old).toEqual({ ok: true, value: { version: 1, steps: ["0"], lifted: true } });
  expect(upgradedCopy({ version: 1 }, 1, upgrades)).toEqual({ ok: true, value: { version: 1 } });
  expect(upgradedCopy({ version: 2 }, 1, upgrades).ok).toBe(false);
});
