/** What somebody typed, as a document takes it. */
import { oneLine } from "@halflap/board/one-line";

/** The text on one line, without what shows nothing around it, cut where it is too long. */
export function shortLine(text: string, max: number): string {
  return oneLine(text.replace(/[\s\p{Cc}]+/gu, " ").trim(), max) ?? "";
}
