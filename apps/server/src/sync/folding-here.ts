/** Merging and folding in the thread that asks: for tests, and for what is short. */
import { foldOf } from "./compaction.ts";
import type { Folding } from "./folding-port.ts";
import { replayedTitle } from "./replayed-title.ts";
import { wholeOf } from "./whole-document.ts";

/** Has nothing to end. */
export const foldingHere: Folding = {
  merge: async (updates) => wholeOf(updates),
  fold: async (updates) => foldOf(updates),
  title: async (updates) => replayedTitle(updates),
  close: async () => undefined,
};
