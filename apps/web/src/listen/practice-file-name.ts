/** The name of a practice file. */

/** "Paper Ferry Home", "Verse", "80 %", "" -> "paper-ferry-home-verse-80.wav". */
export function practiceFileName(title: string, marks: readonly string[]): string {
  const words = [title || "board", ...marks].flatMap(
    (text) => text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [],
  );
  return `${words.join("-").slice(0, 80) || "board"}.wav`;
}
