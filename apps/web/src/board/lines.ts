/** How bars fall into lines: four, two or one a line, never splitting a bar or squeezing a slot. */

/** The narrowest slot in which a small diagram and its fret string still read. */
export const slotWidthMin = 80;
/** The narrowest bar worth drawing beside another. */
const barWidthMin = 150;

/** How many bars of a section stand in a line, for its width in CSS pixels and its busiest bar. */
export function barsInLine(width: number, slotsMax: number): 1 | 2 | 4 {
  const barWidth = Math.max(barWidthMin, slotsMax * slotWidthMin);
  if (width >= barWidth * 4) return 4;
  return width >= barWidth * 2 ? 2 : 1;
}

/** The bars cut into lines of `perLine`, the last one as long as what is left. */
export function linesOf<T>(bars: readonly T[], perLine: number): readonly (readonly T[])[] {
  const lines: (readonly T[])[] = [];
  for (let at = 0; at < bars.length; at += perLine) lines.push(bars.slice(at, at + perLine));
  return lines;
}

/** The column left of the bars, for the lanes' names; upright and narrow on a phone. */
export function gutterWidth(width: number): number {
  return width < wideMin ? 28 : 84;
}

/** From this width on, lane names stand level. LineView.css has the same figure. */
const wideMin = 640;
