/** The checker on made-up histories: a good one passes, and each rule finds what breaks it. */
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { stateOf } from "../soak/schedule.ts";
import { faultsIn } from "./checker.ts";
import { deletionName, editName } from "./edits-in.ts";
import type { DocumentLog, Evidence, LogRow } from "./evidence.ts";
import { History } from "./history.ts";
import { type Deleted, deletedIn } from "./own-deletions.ts";

const client = 7;
const document = "board";

/** A page at node 0 that made, sent and saw saved so many edits, each in a row of its own. */
function told(count: number) {
  const history = new History();
  const doc = new Y.Doc();
  doc.clientID = client;
  const rows: LogRow[] = [];
  const at = { page: "ada", node: 0, socket: 1 };
  for (let i = 1; i <= count; i += 1) {
    const edit = editName("ada", i);
    doc.once("update", (update: Uint8Array) => rows.push({ id: i, message: `m${i}`, update }));
    doc.getArray<string>("order").push([edit]);
    history.note({ kind: "edit", page: "ada", document, edit, client, end: i });
    history.note({ kind: "sent", ...at, edits: [edit] });
    history.note({ kind: "saved", ...at, document, clocks: new Map([[client, i]]), decided: i });
  }
  return { history, doc, rows, at };
}

function evidenceOf(doc: Y.Doc, rows: readonly LogRow[], log: Partial<DocumentLog> = {}): Evidence {
  const held = { who: "node 0", document, state: stateOf(doc) } as const;
  const whole = { document, head: rows.length, folded: 0, rows, ...log } as const;
  return { logs: [whole], answers: [held], pages: [{ ...held, who: "ada" }] };
}

test("a history in which all was stored once and is held by all passes, folded or not", () => {
  const { history, doc, rows } = told(4);
  expect(faultsIn(history, evidenceOf(doc, rows))).toEqual([]);
  const fold = Y.encodeStateAsUpdate(doc);
  const folded = rows.map((row) => {
    return row.id === 4 ? { ...row, update: fold } : { ...row, update: new Uint8Array() };
  });
  expect(faultsIn(history, evidenceOf(doc, folded, { folded: 4 }))).toEqual([]);
});

describe("it finds", () => {
  test("what was said to be saved and is not in the log", () => {
    const { history, doc, rows } = told(3);
    const faults = faultsIn(history, evidenceOf(doc, rows.slice(0, 2)));
    expect(faults[0]).toBe(
      "board: node 0 told ada that 7 is saved up to 3, and the log has it up to 2",
    );
    expect(faults).toContain("board: edit-ada-3 is there 0 times");
  });

  test("a hole in the ids, a count that is not the rows', and a row that says nothing", () => {
    const { history, doc, rows } = told(3);
    const hole = rows.map((row) => (row.id === 2 ? { ...row, id: 5 } : row));
    expect(faultsIn(history, evidenceOf(doc, hole))).toEqual([
      "board: row 5 stands where 2 should",
    ]);
    expect(faultsIn(history, evidenceOf(doc, rows, { head: 4 }))).toEqual([
      "board: 3 rows, and 4 are counted",
    ]);
    const husk = { id: 4, message: "m4", update: new Uint8Array() };
    expect(faultsIn(history, evidenceOf(doc, [...rows, husk]))).toEqual([
      "board: row 4 says nothing",
    ]);
  });

  test("a row that is there twice, though it was sent once; sent twice it may be", () => {
    const { history, doc, rows, at } = told(2);
    const twice = rows.slice(1).map((row) => ({ ...row, id: 3, message: "m3" }));
    const evidence = evidenceOf(doc, [...rows, ...twice]);
    expect(faultsIn(history, evidence)).toEqual(["board: edit-ada-2 is in 2 rows, sent 1 times"]);
    history.note({ kind: "sent", ...at, edits: [editName("ada", 2)] });
    expect(faultsIn(history, evidence)).toEqual([]);
  });

  test("a deletion that is not in the log, and worse if its page was told that it is saved", () => {
    const { history, doc, rows, at } = told(2);
    doc.once("update", (update: Uint8Array) => rows.push({ id: 3, message: "m3", update }));
    doc.getMap("keys").set("k", 1);
    const before = Y.encodeStateAsUpdate(doc);
    let deleted: readonly Deleted[] = [];
    doc.once("afterTransaction", (made: Y.Transaction) => {
      deleted = deletedIn(made);
    });
    doc.once("update", (update: Uint8Array) => rows.push({ id: 4, message: "m4", update }));
    doc.getMap("keys").delete("k");
    const deletion = deletionName("ada", 1);
    history.note({ kind: "deletion", page: "ada", document, deletion, deleted });
    expect(faultsIn(history, evidenceOf(doc, rows))).toEqual([]);
    const kept = new Y.Doc();
    Y.applyUpdate(kept, before);
    const without = evidenceOf(kept, rows.slice(0, 3));
    expect(faultsIn(history, without)).toEqual(["board: deletion-ada-1 is not in the log"]);
    history.note({ kind: "deletion-saved", ...at, deletion });
    expect(faultsIn(history, without)).toContain(
      "board: node 0 told ada that deletion-ada-1 is saved, and it is lost",
    );
  });

  test("an edit that a page made twice", () => {
    const { history, doc, rows } = told(2);
    doc.once("update", (update: Uint8Array) => rows.push({ id: 3, message: "m3", update }));
    doc.getArray<string>("order").push([editName("ada", 1)]);
    expect(faultsIn(history, evidenceOf(doc, rows))).toContain(
      "board: edit-ada-1 is there 2 times",
    );
  });

  test("a node and a page that hold something else than the log", () => {
    const { history, doc, rows } = told(2);
    const { logs, answers, pages } = evidenceOf(doc, rows);
    const other = told(1);
    const state = stateOf(other.doc);
    const differing = [...answers, ...pages].map((held) => ({ ...held, state }));
    expect(faultsIn(history, { logs, answers: differing, pages: [] })).toEqual([
      "board: node 0 holds something else than the log",
      "board: ada holds something else than the log",
    ]);
  });

  test("what is said to be saved while the store is gone", () => {
    const { history, doc, rows, at } = told(1);
    history.note({ kind: "store-gone", node: 0 });
    doc.once("update", (update: Uint8Array) => rows.push({ id: 2, message: "m2", update }));
    doc.getArray<string>("order").push([editName("ada", 2)]);
    const edit = { page: "ada", document, edit: editName("ada", 2), client, end: 2 } as const;
    history.note({ kind: "edit", ...edit });
    history.note({ kind: "sent", ...at, edits: [edit.edit] });
    const evidence = evidenceOf(doc, rows);
    expect(faultsIn(history, evidence)).toEqual([]);
    const saved = { ...at, document, clocks: new Map([[client, 2]]), decided: 2 } as const;
    history.note({ kind: "saved", ...saved });
    expect(faultsIn(history, evidence)).toEqual([
      "board: node 0 said that edit-ada-2 is saved, without its store",
    ]);
  });

  test("a refusal and a farewell for good, but no full store and no broken line", () => {
    const { history, doc, rows, at } = told(1);
    history.note({ kind: "refused", ...at, why: "store-full", hasOwn: true });
    history.note({ kind: "refused", ...at, why: "others-first", hasOwn: true });
    history.note({ kind: "refused", ...at, why: "not-yours", hasOwn: false });
    history.note({ kind: "closed", ...at, code: 1013 });
    expect(faultsIn(history, evidenceOf(doc, rows))).toEqual([]);
    history.note({ kind: "refused", ...at, why: "not-yours", hasOwn: true });
    history.note({ kind: "closed", ...at, code: 4529 });
    expect(faultsIn(history, evidenceOf(doc, rows))).toEqual([
      "node 0 refused ada: not-yours",
      "node 0 sent ada away with 4529",
    ]);
  });
});
