/** A name, short enough for a small mark. */

/** The first letters of the first and the last word: "Mara" -> "M", "Jo de Wit" -> "JW". */
export function initials(name: string): string {
  const words = name.trim().split(/\s+/);
  const letters = [words[0], words.length > 1 ? words.at(-1) : undefined];
  return letters.map((word) => [...(word ?? "")][0]?.toUpperCase() ?? "").join("");
}
