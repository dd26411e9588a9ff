/** Boards read from copies, the way a page reads them. */
import type { Board } from "@halflap/board/board";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";

/** The board of a copy, written into documents and read out of them. */
export function boardOfCopy(copy: BoardCopy): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  return makeReader(documents)();
}
