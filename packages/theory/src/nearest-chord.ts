/** Guesses the chord quality a musician meant by a mistyped one. */

/** Usual spellings, the commonest first: of two that are equally near, the first is offered. */
const usual: readonly { readonly quality: string; readonly bare: string }[] = [
  "7 m m7 maj7 6 m6 9 m9 maj9 7sus4 sus4 sus2 dim dim7 m7b5 aug 13 11 m11 maj13 69 add9 m(maj7)",
  "7b9 7#9 7b5 7#5 7#11 7b13 7alt maj7#11 9sus4 13sus4 13b9 9#11 5 min min7 maj major minor",
]
  .flatMap((line) => line.split(" "))
  .map((quality) => ({ quality, bare: quality.replace(/[()]/g, "") }));

/** Past this many slips the text is another word, not a mistyped chord. */
const slipsMax = 2;

/** What German note names say for sharp and flat: Fis is F♯, Des and Es are D♭ and E♭. */
const germanEnding = /^(is|es|s)(?=\W|\d|m|$)/;

/** Written for a quality by some and not read here: a bare word, and h, a note in German. */
const elsewhere: Readonly<Record<string, string>> = { dom: "7", h: "m7b5", h7: "m7b5" };

/**
 * Qualities near the one typed, nearest first, none when nothing is near. A slip is a letter too
 * many, too few, wrong, or swapped with its neighbour (Damerau 1964).
 */
export function nearestQuality(typed: string): readonly string[] {
  const german = germanEnding.exec(typed)?.[0];
  const endings =
    german === undefined ? [] : [(german === "is" ? "#" : "b") + typed.slice(german.length)];
  const bare = typed.replace(/[()[\]\s]/g, "").toLowerCase();
  const known = elsewhere[bare];
  const near = usual
    .filter((other) => Math.abs(other.bare.length - bare.length) <= slipsMax)
    .map((other) => ({ quality: other.quality, slips: slipsBetween(bare, other.bare) }))
    .filter(({ quality, slips }) => slips <= slipsMax && slips < Math.max(2, quality.length))
    .sort((one, other) => one.slips - other.slips)
    .map(({ quality }) => quality);
  return [...endings, ...(known === undefined ? [] : [known]), ...near];
}

function slipsBetween(one: string, other: string): number {
  const rows: number[][] = [Array.from({ length: other.length + 1 }, (_, column) => column)];
  const at = (row: number, column: number) => rows[row]?.[column] ?? Number.POSITIVE_INFINITY;
  for (let row = 1; row <= one.length; row++) {
    rows[row] = [row];
    for (let column = 1; column <= other.length; column++) {
      const isSame = one[row - 1] === other[column - 1];
      const isSwapped = one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1];
      const slips = [
        at(row - 1, column) + 1,
        at(row, column - 1) + 1,
        at(row - 1, column - 1) + (isSame ? 0 : 1),
        isSwapped ? at(row - 2, column - 2) + 1 : Number.POSITIVE_INFINITY,
      ];
      rows[row]?.push(Math.min(...slips));
    }
  }
  return at(one.length, other.length);
}
