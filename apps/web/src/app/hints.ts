/** The one sentence that a board made from the demo tune begins with. */
import type { BoardId } from "@halflap/wire/api";
import { remember, remembered } from "../session/remembered.ts";

export type Hint = "draft" | "fitted";

/** The hint of a board that was not read yet. */
export function hintOf(board: BoardId): Hint | undefined {
  return remembered(`hint:${board}`, (value) =>
    value === "draft" || value === "fitted" ? value : undefined,
  );
}

/** Gives a board a hint, or takes it away once it was read. */
export function setHint(board: BoardId, hint: Hint | undefined): void {
  remember(`hint:${board}`, hint);
}

/**
 * Whether a demo draft is opened here for the first time, and so opens on a passage with findings;
 * asking counts as opening.
 */
export function takeFirstLook(board: BoardId): boolean {
  const name = `looked:${board}`;
  if (hintOf(board) !== "draft" || remembered(name, (value) => value === true)) return false;
  return remember(name, true);
}
