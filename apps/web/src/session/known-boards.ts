/**
 * The boards this browser has opened, so that the door and a board also open without the server.
 */
import type { BoardCard, BoardId } from "@halflap/wire/api";
import { remember, remembered } from "./remembered.ts";

export type KnownBoard = BoardCard & { readonly epoch: number };

const knownMax = 200;

/** Every board known here, the last opened first. */
export function knownBoards(): readonly KnownBoard[] {
  return remembered("boards", decodeBoards) ?? [];
}

/** What is known here of one board. */
export function knownBoard(id: BoardId): KnownBoard | undefined {
  return knownBoards().find((board) => board.id === id);
}

/** Keeps a board in the list, in front. */
export function knowBoard(board: KnownBoard): void {
  const others = knownBoards().filter(({ id }) => id !== board.id);
  remember("boards", [board, ...others].slice(0, knownMax));
}

/** Takes a board off the list; its documents stay where they are. */
export function forgetBoard(id: BoardId): void {
  const others = knownBoards().filter((board) => board.id !== id);
  remember("boards", others);
}

function decodeBoards(value: unknown): readonly KnownBoard[] | undefined {
  return Array.isArray(value) ? value.filter(isKnownBoard) : undefined;
}

function isKnownBoard(value: unknown): value is KnownBoard {
  if (typeof value !== "object" || value === null) return false;
  const { id, title, me, editedAt, epoch } = value as Partial<Record<keyof KnownBoard, unknown>>;
  const texts = [id, title, editedAt].every((text) => typeof text === "string");
  return texts && typeof epoch === "number" && typeof me === "object" && me !== null;
}
