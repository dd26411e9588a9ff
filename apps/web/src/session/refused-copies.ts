/**
 * Copies of boards as they stood when the server did not take a change: kept until the person is
 * done with them.
 */
import { type BoardCopy, decodeCopy } from "@halflap/board/copy";
import type { BoardId } from "@halflap/wire/api";
import { createSignal, onCleanup } from "solid-js";
import { makeId } from "./own-id.ts";
import { remember, remembered, whenRememberedElsewhere } from "./remembered.ts";

export type RefusedCopy = {
  readonly id: string;
  readonly words: string;
  readonly copy: BoardCopy;
};

const copiesMax = 8;

/** The copies of a board, the last refused first. */
export function refusedCopies(board: BoardId): readonly RefusedCopy[] {
  return remembered(name(board), decodeCopies) ?? [];
}

/** Keeps one more copy of a board; false when this browser has no room for it beside the others. */
export function keepRefusedCopy(board: BoardId, made: Omit<RefusedCopy, "id">): boolean {
  return keep(board, [{ ...made, id: makeId() }, ...refusedCopies(board)]);
}

/** The copies of a board, newest first and live, until they are dismissed. */
export function openRefusedCopies(board: BoardId) {
  const [refused, setRefused] = createSignal(refusedCopies(board));
  const [areKept, setAreKept] = createSignal(true);
  /** Those that every tab sees; the others live only in this page. */
  let shared = new Set(refused().map(({ id }) => id));
  /** What other tabs keep under the same name stays; `gone` is what this one is done with. */
  const note = (copies: readonly RefusedCopy[], gone?: RefusedCopy) => {
    setRefused(copies);
    const own = new Set([gone, ...copies].map((each) => each?.id));
    const others = refusedCopies(board).filter(({ id }) => !own.has(id));
    setAreKept(keep(board, [...others, ...copies]));
    shared = new Set(refusedCopies(board).map(({ id }) => id));
  };
  /** What another tab is done with, this one is too. */
  const onElsewhere = () => {
    const left = new Set(refusedCopies(board).map(({ id }) => id));
    setRefused((copies) => copies.filter(({ id }) => left.has(id) || !shared.has(id)));
    shared = left;
  };
  onCleanup(whenRememberedElsewhere(name(board), onElsewhere));
  /** Keeps a copy, in the place of one made earlier. */
  const keepRefused = (made: Omit<RefusedCopy, "id">, earlier: RefusedCopy | undefined) => {
    const copy = { ...made, id: earlier?.id ?? makeId() };
    note([copy, ...refused().filter(({ id }) => id !== copy.id)]);
    return copy;
  };
  const dismiss = () => {
    const [first, ...rest] = refused();
    note(rest, first);
  };
  return { refused, keepRefused, dismiss, areKept };
}

/**
 * Keeps the copies; false when this browser has no room for all of them, or they are more than
 * `copiesMax`: then some live only while the page does.
 */
function keep(board: BoardId, copies: readonly RefusedCopy[]): boolean {
  const kept = remember(name(board), copies.length === 0 ? undefined : copies.slice(0, copiesMax));
  return kept && copies.length <= copiesMax;
}

function name(board: BoardId): string {
  return `refused:${board}`;
}

function decodeCopies(value: unknown): readonly RefusedCopy[] | undefined {
  if (!Array.isArray(value)) return undefined;
  return value.flatMap((each: unknown, index) => {
    if (typeof each !== "object" || each === null || !("words" in each) || !("copy" in each)) {
      return [];
    }
    const copy = decodeCopy(each.copy);
    if (!copy.ok || typeof each.words !== "string") return [];
    // Copies of an earlier release have none, and stand still until they get one.
    const id = "id" in each && typeof each.id === "string" ? each.id : `old-${index}`;
    return [{ id, words: each.words, copy: copy.value }];
  });
}
