/** `halflap copy`: what a store holds, and one board of it as a JSON copy. */
import { copyOf } from "@halflap/board/copy";
import { openStoreReadOnly, type ReadOnlyStore } from "@halflap/server/store";
import type { Reading } from "@halflap/theory/chord";
import { done, type Outcome, refused } from "./outcome.ts";

/** Lists the boards of a store (id, time of the last edit, title), or writes one of them. */
export function runCopy(path: string, board: string | undefined): Outcome {
  const opened = open(path);
  if (!opened.ok) return refused(opened.error);
  const store = opened.value;
  try {
    return board === undefined ? listBoards(store) : writeCopy(store, path, board);
  } catch (fault) {
    return refused(`${path} can't be read as a store: ${wordsOf(fault)}.`);
  } finally {
    store.close();
  }
}

const unread = "(can't be read; halflap verify says what is damaged)";

function listBoards(store: ReadOnlyStore): Outcome {
  const boards = store.listBoards();
  if (boards.length === 0) return done("There are no boards in this store.\n");
  const lines = boards.map(({ id, editedAt, title = unread }) => `${id}  ${editedAt}  ${title}\n`);
  return done(lines.join(""));
}

function writeCopy(store: ReadOnlyStore, path: string, board: string): Outcome {
  const documents = store.documents(board);
  if (documents === undefined) {
    return refused(`There is no board "${board}" in ${path}. Without a board, all are listed.`);
  }
  return done(`${JSON.stringify(copyOf(documents), undefined, 2)}\n`);
}

function open(path: string): Reading<ReadOnlyStore, string> {
  try {
    return { ok: true, value: openStoreReadOnly(path) };
  } catch (fault) {
    const isMissing = fault instanceof Error && "code" in fault && fault.code === "ENOENT";
    const words = isMissing ? "is not there" : `can't be read as a store: ${wordsOf(fault)}`;
    return { ok: false, error: `${path} ${words}.` };
  }
}

function wordsOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}
