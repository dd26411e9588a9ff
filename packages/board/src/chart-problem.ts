/**
 * What is wrong with a chart text, and where; a problem is a value, and all of them are told at
 * once.
 */
import type { ChordError } from "@halflap/theory/chord";
import { chordTextMax } from "./limits.ts";

export type ChartProblem = {
  /** 1-based. */
  readonly line: number;
  /** 1-based, in UTF-16 code units. */
  readonly column: number;
  /** The part not understood, as typed. */
  readonly read: string;
  /** What was probably meant, as it would be typed. */
  readonly meant?: string;
  /** A sentence for the person who typed it. */
  readonly words: string;
};

/** A problem on the line that is being read; `column` is 0-based. */
export type LineProblem = Omit<ChartProblem, "line" | "column"> & { readonly column: number };

/** A problem at a word of the line. */
export function problemAt(
  word: { readonly text: string; readonly column: number },
  words: string,
  meant?: string,
): LineProblem {
  const where = { column: word.column, read: word.text, words };
  return meant === undefined ? where : { ...where, meant };
}

/** What to say of a word that is no chord. */
export function chordProblem(
  word: { readonly text: string; readonly column: number },
  error: ChordError,
): LineProblem {
  const at = error.read === word.text || error.read === "" ? "" : ` at "${error.read}"`;
  const guess = error.meant === undefined ? "" : ` Did you mean ${error.meant}?`;
  if (word.text.length > chordTextMax) return problemAt(word, "This is too long for a chord.");
  return problemAt(word, `"${word.text}" is no chord I know${at}.${guess}`, error.meant);
}

/** The closest of a few names, if one is close: at most a third of its letters differ. */
export function nearest(read: string, names: readonly string[]): string | undefined {
  const longest = Math.max(...names.map((name) => name.length), 0);
  if (read.length > 2 * longest) return undefined;
  const typed = read.toLowerCase();
  const near = names
    .map((name) => ({ name, distance: lettersApart(typed, name.toLowerCase()) }))
    .filter(({ name, distance }) => distance <= Math.max(1, name.length / 3))
    .sort((a, b) => a.distance - b.distance);
  return near[0]?.name;
}

/** Letters to put in, take out or change (Levenshtein 1966). */
function lettersApart(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (const [i, letter] of [...a].entries()) {
    const next = [i + 1];
    for (const [j, other] of [...b].entries()) {
      const change = (row[j] ?? 0) + (letter === other ? 0 : 1);
      next.push(Math.min(change, (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
