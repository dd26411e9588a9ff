/**
 * Where strings, frets and pegs lie on the drawn neck, in CSS pixels, and what lies under a
 * finger.
 */
import type { StringNumber } from "@halflap/theory/grip";

/** `frets` from the nut; mirrored puts the nut on the right, for left-handed players. */
export type NeckShape = { readonly frets: number; readonly mirrored: boolean };

/** Room left of the nut for open and silent strings, right of the last fret, above, below. */
const openRoom = 40;
const endRoom = 10;
const topRoom = 18;
const numberRoom = 24;
/** Between strings, and the mean width of a space; both leave a target for a finger. */
export const stringGap = 27;
const spaceWidth = 34;
/** How far the drawing leans to the true spacing, which would leave no room at the high frets. */
const trueness = 0.45;

/** The whole drawing. */
export function neckSize(shape: NeckShape): { readonly width: number; readonly height: number } {
  return {
    width: openRoom + shape.frets * spaceWidth + endRoom,
    height: topRoom + 5 * stringGap + numberRoom + stringGap / 2,
  };
}

/** The line of a fret, 0 = the nut. Real frets close up by the twelfth root of two. */
export function fretX(shape: NeckShape, fret: number): number {
  const even = fret / shape.frets;
  const real = (1 - 2 ** (-fret / 12)) / (1 - 2 ** (-shape.frets / 12));
  const share = even + trueness * (real - even);
  return turned(shape, openRoom + share * shape.frets * spaceWidth);
}

/**
 * The middle of a space, where a peg stands; 0 = before the nut. A string left to the capo has its
 * peg in the space behind the capo.
 */
export function pegX(shape: NeckShape, fret: number): number {
  if (fret === 0) return turned(shape, openRoom / 2);
  return (fretX(shape, fret - 1) + fretX(shape, fret)) / 2;
}

/** The height of a string; string 1 on top, as in tab. */
export function stringY(string: StringNumber): number {
  return topRoom + (string - 1) * stringGap;
}

/** The string and fret nearest to a point of the drawing; undefined outside the neck. */
export function under(
  shape: NeckShape,
  x: number,
  y: number,
): { readonly string: StringNumber; readonly fret: number } | undefined {
  const string = strings[Math.round((y - topRoom) / stringGap)];
  const along = turned(shape, x);
  if (string === undefined || along < 0 || along > neckSize(shape).width) return undefined;
  const level: NeckShape = { ...shape, mirrored: false };
  for (let fret = 0; fret <= shape.frets; fret += 1) {
    if (along <= fretX(level, fret)) return { string, fret };
  }
  return undefined;
}

/** Frets that carry an inlay on most guitars; the octave carries two. */
export function inlays(fret: number): 0 | 1 | 2 {
  if (fret % 12 === 0) return 2;
  return [3, 5, 7, 9].includes(fret % 12) ? 1 : 0;
}

const strings: readonly StringNumber[] = [1, 2, 3, 4, 5, 6];

function turned(shape: NeckShape, x: number): number {
  return shape.mirrored ? neckSize(shape).width - x : x;
}
