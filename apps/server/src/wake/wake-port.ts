/**
 * Wake-ups between nodes: word that a document has a new row. They save waiting for the next look
 * at the store, and nothing else: each may be lost, doubled, late or untrue, and no harm is done.
 */
import { isDocumentName } from "@halflap/board/documents";
import { type DocumentKey, type RowId, rowId } from "../store/log-port.ts";
import { decodeBoardId } from "../store/secret.ts";

/** A document, and a row that it has at least. */
export type Word = { readonly key: DocumentKey; readonly row: RowId };

/** What is heard: a word, or that words may have been missed, of any document. */
export type Heard = Word | "perhaps-more";

export type Wakes = {
  /** Says a word to all nodes, this one too perhaps. Returns at once, and never fails. */
  say(word: Word): void;
  /** Whom to tell from here on what is said. */
  hear(listener: (heard: Heard) => void): void;
  /** Ends it; nothing is heard afterwards. */
  close(): Promise<void>;
};

/** A word as text. */
export function encodeWord({ key, row }: Word): string {
  return JSON.stringify([key.board, key.document, row]);
}

/** The word in a text from outside; undefined when it is none. */
export function decodeWord(text: string): Word | undefined {
  let parts: unknown;
  try {
    parts = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (!Array.isArray(parts) || parts.length !== 3) return undefined;
  const [board, document, row]: readonly unknown[] = parts;
  const id = typeof board === "string" ? decodeBoardId(board) : undefined;
  const isWhole = typeof row === "number" && Number.isSafeInteger(row) && row > 0;
  if (id === undefined || typeof document !== "string" || !isWhole) return undefined;
  if (!isDocumentName(document)) return undefined;
  return { key: { board: id, document }, row: rowId(row) };
}
