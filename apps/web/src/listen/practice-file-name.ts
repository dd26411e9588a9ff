/** The name of a practice file. */
import type { FileFormat } from "./practice-file.ts";

/** "Paper Ferry Home", "Verse", "80 %", ""; "wav" -> "paper-ferry-home-verse-80.wav". */
export function practiceFileName(
  title: string,
  marks: readonly string[],
  format: FileFormat,
): string {
  const words = [title || "board", ...marks].flatMap(
    (text) => text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [],
  );
  return `${words.join("-").slice(0, 80) || "board"}.${format}`;
}
