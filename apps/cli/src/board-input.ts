/** The text of a board's file, and the JSON copy in it. */
import type { Readable } from "node:stream";
import { type BoardCopy, decodeCopy } from "@halflap/board/copy";
import type { Reading } from "@halflap/theory/chord";
import { named, readInput } from "./input.ts";

/** The text of a file, "-" = the given stream; or a sentence: it can't be read or is empty. */
export async function readText(file: string, standard: Readable): Promise<Reading<string, string>> {
  const input = await readInput(file, standard);
  if (!input.ok || input.value.trim() !== "") return input;
  return { ok: false, error: `${named(file)} is empty.` };
}

/** Whether a text is meant to be JSON; a chart text begins with other signs. */
export function isJson(text: string): boolean {
  return /^\s*\{/.test(text);
}

/** The copy in a text, or a sentence that says what is wrong with it, and where. */
export function copyIn(file: string, text: string): Reading<BoardCopy, string> {
  const value = parsed(text);
  if (!value.ok) return bad(`${named(file)} is no whole JSON: ${value.error}`);
  const copy = decodeCopy(value.value);
  if (copy.ok) return copy;
  const { path, words } = copy.error;
  return bad(`${named(file)} is no copy of a board: ${path === "" ? "it" : path} ${words}.`);
}

function parsed(text: string) {
  try {
    const value: unknown = JSON.parse(text);
    return { ok: true, value } as const;
  } catch (fault) {
    const message = fault instanceof Error ? fault.message : String(fault);
    return { ok: false, error: `${message}${placeOf(message, text)}.` } as const;
  }
}

/** Line and column, where the message knows the position only. */
function placeOf(message: string, text: string): string {
  const position = /at position (\d+)$/.exec(message)?.[1];
  if (position === undefined) return "";
  const lines = text.slice(0, Number(position)).split("\n");
  return ` (line ${lines.length} column ${(lines.at(-1) ?? "").length + 1})`;
}

function bad(words: string): Reading<never, string> {
  return { ok: false, error: words };
}
