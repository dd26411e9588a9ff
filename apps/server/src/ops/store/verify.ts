/** Reads everything that a store holds, and tells what can't be read. */
import { copyOf } from "@halflap/board/copy";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import { decodeTakeHead } from "@halflap/board/take";
import type { Database } from "better-sqlite3";
import * as Y from "yjs";
import { soundTypeOf } from "../../http/sound-type.ts";
import { decodeUpdate } from "../../sync/decoded-update.ts";
import { messageOf, openCurrent } from "./place.ts";

export type StoreFault = {
  /** Undefined for a fault of the file. */
  readonly board: string | undefined;
  /** A document's name, "take" with its id, or "file". */
  readonly part: string;
  readonly why: string;
};

export type Verified = {
  readonly boards: number;
  readonly documents: number;
  readonly rows: number;
  readonly takes: number;
  readonly faults: readonly StoreFault[];
};

/** Reads a store or a backup, beside a server or not. Throws CantDo when it can't be opened. */
export function verify(path: string): Verified {
  const db = openCurrent(path);
  try {
    const faults: StoreFault[] = fileFaults(db);
    const counts = { boards: 0, documents: 0, rows: 0, takes: 0 };
    const boards = db.prepare<[], { id: string }>("SELECT id FROM boards ORDER BY id");
    const one = db.transaction((board: string) => boardFaults(db, board, counts));
    for (const { id } of boards.all()) {
      counts.boards += 1;
      faults.push(...whole(id, "file", () => one(id)));
    }
    return { ...counts, faults };
  } finally {
    db.close();
  }
}

type Counts = { boards: number; documents: number; rows: number; takes: number };

function fileFaults(db: Database): StoreFault[] {
  const broken = db.prepare<[], { integrity_check: string }>("PRAGMA integrity_check").all();
  const pages = broken.map((row) => row.integrity_check).filter((text) => text !== "ok");
  const lone = db.prepare<[], { table: string }>("PRAGMA foreign_key_check").all();
  const rows = lone.map(({ table }) => `a row of ${table} belongs to nothing`);
  return [...pages, ...rows].map((why) => ({ board: undefined, part: "file", why }));
}

function boardFaults(db: Database, board: string, counts: Counts): readonly StoreFault[] {
  const documents = emptyDocuments();
  const read = documentNames.flatMap((name) =>
    whole(board, name, () => {
      counts.documents += 1;
      const rows = rowsOf(db, board, name);
      counts.rows += rows.length;
      return documentFaults(rows, documents[name]).map((why) => ({ board, part: name, why }));
    }),
  );
  const together = whole(board, "board", () => {
    copyOf(documents);
    return [];
  });
  return [...read, ...together, ...takeFaults(db, board, counts)];
}

type Row = { readonly id: number; readonly data: Buffer };

function rowsOf(db: Database, board: string, name: string): readonly Row[] {
  const found = db
    .prepare<[string, string], { id: number; folded: number }>(
      "SELECT id, folded FROM documents WHERE board = ? AND name = ?",
    )
    .get(board, name);
  if (found === undefined) throw new Error("the document is missing");
  return db
    .prepare<[number, number], Row>(
      "SELECT id, data FROM updates WHERE document = ? AND id >= ? ORDER BY id",
    )
    .all(found.id, found.folded);
}

function documentFaults(rows: readonly Row[], doc: Y.Doc): readonly string[] {
  const faults: string[] = [];
  for (const { id, data } of rows) {
    const update = new Uint8Array(data);
    try {
      if (decodeUpdate(update) === undefined) throw new Error("its bytes are no update");
      Y.applyUpdate(doc, update);
    } catch (fault) {
      faults.push(`row ${id} can't be read: ${messageOf(fault)}`);
    }
  }
  const isWhole = doc.store.pendingStructs === null && doc.store.pendingDs === null;
  return isWhole ? faults : [...faults, "something that a row builds on is missing"];
}

type TakeRow = { readonly id: string; readonly head: string; readonly type: string };

function takeFaults(db: Database, board: string, counts: Counts): readonly StoreFault[] {
  const takes = db.prepare<[string], TakeRow & { size: number; sound: Buffer }>(
    "SELECT id, head, type, size, sound FROM takes WHERE board = ? ORDER BY number",
  );
  const faults: StoreFault[] = [];
  for (const { id, head, type, size, sound } of takes.iterate(board)) {
    counts.takes += 1;
    const part = `take ${id}`;
    const say = (why: string) => faults.push({ board, part, why });
    if (sound.length !== size) say(`its sound has ${sound.length} bytes instead of ${size}`);
    else if (soundTypeOf(sound) !== type) say(`its sound is no ${type}`);
    faults.push(
      ...whole(board, part, () => {
        if (!decodeTakeHead(JSON.parse(head)).ok) say("what is said about it can't be read");
        return [];
      }),
    );
  }
  return faults;
}

/** What a reading finds, and as one more fault what ends it. */
function whole(
  board: string,
  part: string,
  read: () => readonly StoreFault[],
): readonly StoreFault[] {
  try {
    return read();
  } catch (fault) {
    return [{ board, part, why: messageOf(fault) }];
  }
}
