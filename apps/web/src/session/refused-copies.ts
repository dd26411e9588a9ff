/**
 * Copies of boards as they stood when the server did not take a change: kept until the person is
 * done with them.
 */
import { type BoardCopy, decodeCopy } from "@halflap/board/copy";
import type { BoardId } from "@halflap/wire/api";
import { createSignal } from "solid-js";
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

/** The copies of a board, newest first and live, until they are dismissed. */
export function openRefusedCopies(id: BoardId) {
  const [refused, setRefused] = createSignal(refusedCopies(id));
  const [areKept, setAreKept] = createSignal(true);
  const noteRefused = (copies: readonly RefusedCopy[]) => {
    setRefused(copies);
    setAreKept(keepRefusedCopies(id, copies));
  };
  /** Keeps a copy, in the place of one made earlier. */
  const keepRefused = (copy: RefusedCopy, earlier: RefusedCopy | undefined) => {
    noteRefused([copy, ...refused().filter((each) => each !== earlier)]);
    return copy;
  };
  const dismiss = () => noteRefused(refused().slice(1));
  return { refused, keepRefused, dismiss, areKept };
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
