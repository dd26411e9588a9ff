/** One honest word for the state of four lines. */
import type { LineState } from "./line.ts";
import type { SaveState } from "./session.ts";

/** A state that ends ordinary work until the person answers it, or undefined. */
export type Interruption = Extract<SaveState, { kind: "refused" | "closed" }>;

/**
 * The state of the whole board, worst first. "saved" only where every line is connected, the server
 * has confirmed what this browser had kept, and no change is on its way.
 */
export function saveState(
  lines: readonly LineState[],
  interruption: Interruption | undefined,
): SaveState {
  if (interruption !== undefined) return interruption;
  const changes = lines.reduce((sum, line) => sum + line.changes, 0);
  const waiting = { changes, isKept: !lines.some((line) => line.keepFailing) };
  if (lines.some((line) => line.storeFull)) return { kind: "store-full", ...waiting };
  if (lines.some((line) => line.unreadable)) return { kind: "unreadable", ...waiting };
  if (!lines.every((line) => line.tried)) return { kind: "opening" };
  if (!lines.every((line) => line.connected)) return { kind: "offline", ...waiting };
  if (changes > 0) return { kind: "sending", changes };
  if (!lines.every((line) => line.confirmed)) return { kind: "opening" };
  return { kind: "saved" };
}
