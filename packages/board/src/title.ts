/** The title of a board, for whoever wants to know no more of it. */
import type * as Y from "yjs";
import { chartLayout } from "./layout.ts";
import { titleMax } from "./limits.ts";
import { oneLine } from "./one-line.ts";

/** What the board document says is its title; "" when it says nothing that can be used (B1). */
export function readTitle(board: Y.Doc): string {
  return oneLine(chartLayout(board).meta.get("title"), titleMax) ?? "";
}
