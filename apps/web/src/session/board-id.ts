/** Board ids as they come in from addresses. */
import type { BoardId } from "@halflap/wire/api";

const shape = /^[A-Za-z0-9_-]{1,64}$/;

/** The board id in an untrusted text, or undefined. */
export function boardId(text: string): BoardId | undefined {
  return shape.test(text) ? (text as BoardId) : undefined;
}
