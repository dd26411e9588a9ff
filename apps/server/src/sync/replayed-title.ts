/** The title of a board out of its updates, which are all replayed for it. */
import { readTitle } from "@halflap/board/title";
import { documentOf } from "./compaction.ts";

/** "" for a board without a title. Throws Unreadable as `foldOf` does. */
export function replayedTitle(updates: readonly Uint8Array[]): string {
  return readTitle(documentOf(updates));
}
