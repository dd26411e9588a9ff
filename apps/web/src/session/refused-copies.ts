/**
 * Copies of boards as they stood when the server did not take a change: kept until the person is
 * done with them.
 */
import { type BoardCopy, decodeCopy } from "@halflap/board/copy";
import type { BoardId } from "@halflap/wire/api";
import { remember, remembered } from "./remembered.ts";

export type RefusedCopy = { readonly words: string; readonly copy: BoardCopy };

const copiesMax = 8;

/** The copies of a board, the last refused first. */
export function refusedCopies(board: BoardId): readonly RefusedCopy[] {
  return remembered(name(board), decodeCopies) ?? [];
}

/**
 * Keeps the copies; false when this browser has no room for all of them, or they are more than
 * `copiesMax`: then some live only while the page does.
 */
export function keepRefusedCopies(board: BoardId, copies: readonly RefusedCopy[]): boolean {
  const kept = remember(name(board), copies.length === 0 ? undefined : copies.slice(0, copiesMax));
  return kept && copies.length <= copiesMax;
}

function name(board: BoardId): string {
  return `refused:${board}`;
}

function decodeCopies(value: unknown): readonly RefusedCopy[] | undefined {
  if (!Array.isArray(value)) return undefined;
  return value.flatMap((each: unknown) => {
    if (typeof each !== "object" || each === null || !("words" in each) || !("copy" in each)) {
      return [];
    }
    const copy = decodeCopy(each.copy);
    return copy.ok && typeof each.words === "string"
      ? [{ words: each.words, copy: copy.value }]
      : [];
  });
}
