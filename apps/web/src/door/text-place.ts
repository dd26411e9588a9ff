/** Places in a text, counted as problems count them: line and column from 1. */

export type TextPlace = { readonly line: number; readonly column: number };

/** The offset of a place in a text, in UTF-16 code units; a place beyond the text is its end. */
export function offsetOf(text: string, place: TextPlace): number {
  let start = 0;
  for (let line = 1; line < place.line; line += 1) {
    const end = text.indexOf("\n", start);
    if (end === -1) return text.length;
    start = end + 1;
  }
  return Math.min(text.length, start + place.column - 1);
}

/** The text with what was read at a place replaced by what was meant. */
export function corrected(text: string, place: TextPlace, read: string, meant: string): string {
  const offset = offsetOf(text, place);
  return text.slice(0, offset) + meant + text.slice(offset + read.length);
}
