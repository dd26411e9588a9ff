/** Reads everything that a store holds, and tells what can't be read. */
import { copyOf } from "@halflap/board/copy";
import { type DocumentName, documentNames, emptyDocuments } from "@halflap/board/documents";
import * as Y from "yjs";
import { soundTypeOf } from "../../http/sound-type.ts";
import { headOf } from "../../store/take-rows.ts";
import { decodeUpdate } from "../../sync/decoded-update.ts";
import { openRecords } from "./open-records.ts";
import { messageOf } from "./place.ts";
import type { Records, StorePlace, TableFault } from "./records.ts";

export type Verified = {
  readonly boards: number;
  readonly documents: number;
  readonly rows: number;
  readonly takes: number;
  /** A part is a document's name, "members", "take" with its id, or "file". */
  readonly faults: readonly TableFault[];
};

/** Reads a store or a backup, beside a server or not. Rejects with CantDo when there is none. */
export async function verify(place: StorePlace): Promise<Verified> {
  const records = await openRecords(place);
  try {
    const faults: TableFault[] = [...(await records.faults())];
    const counts = { boards: 0, documents: 0, rows: 0, takes: 0 };
    const boards = await records.ask<{ id: string }>("SELECT id FROM boards ORDER BY id");
    for (const { id } of boards) {
      counts.boards += 1;
      faults.push(...(await whole(id, "file", () => boardFaults(records, id, counts))));
    }
    return { ...counts, faults };
  } finally {
    await records.close();
  }
}

type Counts = { boards: number; documents: number; rows: number; takes: number };

async function boardFaults(
  records: Records,
  board: string,
  counts: Counts,
): Promise<readonly TableFault[]> {
  const documents = emptyDocuments();
  const stored = await records.moment(() => rowsOf(records, board));
  const read = documentNames.flatMap((part) => {
    counts.documents += 1;
    const rows = stored.get(part);
    if (rows === undefined) return [{ board, part, why: "the document is missing" }];
    counts.rows += rows.length;
    return documentFaults(rows, documents[part]).map((why) => ({ board, part, why }));
  });
  const together = await whole(board, "board", async () => {
    copyOf(documents);
    return [];
  });
  const leading = await leaderFaults(records, board);
  return [...read, ...together, ...leading, ...(await takeFaults(records, board, counts))];
}

type Row = { readonly id: number; readonly data: Buffer };

async function rowsOf(
  { ask }: Records,
  board: string,
): Promise<ReadonlyMap<DocumentName, readonly Row[]>> {
  const found = new Map<DocumentName, readonly Row[]>();
  for (const name of documentNames) {
    const [document] = await ask<{ id: number; folded: number }>(
      "SELECT id, folded FROM documents WHERE board = $1 AND name = $2",
      [board, name],
    );
    if (document === undefined) continue;
    const text = "SELECT id, data FROM updates WHERE document = $1 AND id >= $2 ORDER BY id";
    found.set(name, await ask<Row>(text, [document.id, document.folded]));
  }
  return found;
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

async function leaderFaults({ ask }: Records, board: string): Promise<readonly TableFault[]> {
  const text = "SELECT id FROM members WHERE board = $1 AND role = 'leader'";
  const { length } = await ask(text, [board]);
  return length === 1 ? [] : [{ board, part: "members", why: `${length} of them lead, not one` }];
}

type TakeRow = { readonly id: string; readonly head: string; readonly type: string };

/** One after the other, since each may have megabytes; one that was removed meanwhile is none. */
async function takeFaults(
  { ask, soundOf }: Records,
  board: string,
  counts: Counts,
): Promise<readonly TableFault[]> {
  const all = await ask<{ id: string }>("SELECT id FROM takes WHERE board = $1 ORDER BY at, id", [
    board,
  ]);
  const faults: TableFault[] = [];
  for (const { id } of all) {
    const sound = await soundOf(id);
    const [take] = await ask<TakeRow & { size: number }>(
      "SELECT id, head, type, size FROM takes WHERE id = $1",
      [id],
    );
    if (take === undefined) continue;
    counts.takes += 1;
    const { head, type, size } = take;
    const part = `take ${id}`;
    const say = (why: string) => faults.push({ board, part, why });
    if (sound.length !== size) say(`its sound has ${sound.length} bytes instead of ${size}`);
    else if (soundTypeOf(sound) !== type) say(`its sound is no ${type}`);
    if (headOf(head) === undefined) say("what is said about it can't be read");
  }
  return faults;
}

/** What a reading finds, and as one more fault what ends it. */
async function whole(
  board: string,
  part: string,
  read: () => Promise<readonly TableFault[]>,
): Promise<readonly TableFault[]> {
  try {
    return await read();
  } catch (fault) {
    return [{ board, part, why: messageOf(fault) }];
  }
}
